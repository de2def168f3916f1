import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, onTestFinished, test } from 'vitest';
import { openDatabase } from '../../src/store/open.ts';
import { buildServer, runToEnd, startServer } from '../support/real-server.ts';
import { newFolder } from '../support/test-line.ts';
import { VALLEY } from '../support/valley-scheme.ts';
import { type Answer, text } from '../support/webhook.ts';

const GROWERS = 200;
/** Texts under way at once. */
const AT_ONCE = 16;

beforeAll(buildServer, 180_000);

/** The test valley with many growers of one plot each. */
function wideValley(): string {
  const head = VALLEY.slice(0, VALLEY.indexOf('people:'));
  const each = (line: (i: number) => string) => Array.from({ length: GROWERS }, (_, i) => line(i)).join('\n');
  const people = each((i) => `  - { id: g${i}, name: Grower ${i}, lang: en, phones: ["${phoneOf(i)}"] }`);
  const plot = 'block: upper, areaHa: 0.4, varietyDays: 120, way: { tillage: hoe }';
  return `${head}people:\n${people}\nplots:\n${each((i) => `  - { id: p${i}, number: "1", owner: g${i}, ${plot} }`)}\n`;
}

function phoneOf(i: number): string {
  return `+447700900${String(100 + i).padStart(3, '0')}`;
}

/** Texts the line for every grower, a few at once, until all are sent or the server is gone; returns what was answered. */
async function textAll(url: string, onAnswer: (count: number) => void): Promise<ReadonlyMap<string, Answer>> {
  const answers = new Map<string, Answer>();
  let next = 0;
  const worker = async () => {
    while (next < GROWERS) {
      const i = next++;
      const sid = `SM${i}`;
      // Kept under the carrier's id and the sender.
      const id = `${sid} ${phoneOf(i)}`;
      try {
        const answer = await text(url, sid, phoneOf(i), 'cleared plot 1 today');
        answers.set(id, answer);
        onAnswer(answers.size);
      } catch {
        return;
      }
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, worker));
  return answers;
}

/** Each kept text's answer and how many reports it brought. */
async function kept(path: string) {
  const db = openDatabase(path);
  const rows = await db
    .selectFrom('texts_in')
    .leftJoin('reports', 'reports.batch', 'texts_in.id')
    .select(['texts_in.carrier_id', 'texts_in.answer', 'texts_in.faulty'])
    .select((eb) => eb.fn.count<number>('reports.id').as('reports'))
    .groupBy(['texts_in.id', 'texts_in.carrier_id', 'texts_in.answer', 'texts_in.faulty'])
    .execute();
  await db.destroy();
  return new Map(rows.map((row) => [row.carrier_id, row]));
}

test('killed in the middle of 200 texts: each that was answered is kept once, and the rest can be sent again', async () => {
  const folder = newFolder(onTestFinished);
  const [path, schemePath] = [join(folder, 'line.db'), join(folder, 'valley.yaml')];
  writeFileSync(schemePath, wideValley());
  const settings = { BUNDLINE_DB: path, BUNDLINE_SCHEME: schemePath };

  const first = await startServer(settings, onTestFinished);
  const killed: Promise<unknown>[] = [];
  const before = await textAll(first.url, (count) => {
    if (count === 70) killed.push(first.end('SIGKILL'));
  });
  await Promise.all(killed);
  expect(before.size).toBeGreaterThanOrEqual(70);
  expect(before.size).toBeLessThan(GROWERS);
  const survived = await kept(path);
  for (const [id, answer] of before) {
    expect(survived.get(id)).toMatchObject({ answer: answer.text, faulty: 0, reports: 1 });
  }

  const second = await startServer(settings, onTestFinished);
  const after = await textAll(second.url, () => undefined);
  expect(await second.end('SIGTERM')).toBe(0);
  expect(after.size).toBe(GROWERS);
  for (const [id, answer] of before) expect(after.get(id)).toEqual(answer);
  const all = [...(await kept(path)).values()];
  expect(all).toHaveLength(GROWERS);
  expect(all.filter((row) => row.faulty === 0 && row.reports === 1)).toHaveLength(GROWERS);
}, 120_000);

test('a bad setting stops the start with every mistake on a line of its own', async () => {
  const ended = await runToEnd({ PORT: 'x', BUNDLINE_CARRIER: 'pigeon' }, onTestFinished);
  expect(ended).toMatchObject({ code: 1, stdout: '' });
  expect(
    ended.stderr
      .trim()
      .split('\n')
      .map((line) => line.split(' ')[0]),
  ).toEqual(['PORT', 'BUNDLINE_CARRIER']);
}, 30_000);

test('a scheme file with mistakes stops the start, with file and line', async () => {
  const folder = newFolder(onTestFinished);
  const schemePath = join(folder, 'valley.yaml');
  writeFileSync(schemePath, VALLEY.replace('areaHa: 0.4', 'areaHa: -1'));
  const settings = { BUNDLINE_DB: join(folder, 'line.db'), BUNDLINE_SCHEME: schemePath };
  const ended = await runToEnd(settings, onTestFinished);
  expect(ended.code).toBe(1);
  expect(ended.stderr).toMatch(/^\S+valley\.yaml: line \d+, .*areaHa/);
  expect(ended.stderr).not.toMatch(/ at /);
  const missing = await runToEnd({ ...settings, BUNDLINE_SCHEME: join(folder, 'none.yaml') }, onTestFinished);
  expect(missing).toMatchObject({
    code: 1,
    stderr: expect.stringContaining('there is no such file (ENOENT)'),
  });
}, 30_000);

test('a port in use says so', async () => {
  const folder = newFolder(onTestFinished);
  const first = await startServer({ BUNDLINE_DB: join(folder, 'one.db') }, onTestFinished);
  const port = new URL(first.url).port;
  const ended = await runToEnd({ PORT: port, BUNDLINE_DB: join(folder, 'two.db') }, onTestFinished);
  expect(ended.code).toBe(1);
  expect(ended.stderr).toBe(`Port ${port} is in use; set PORT to another\n`);
}, 30_000);

/** A gateway's file of one's own, without a secret. */
function gatewayFile(folder: string): string {
  const path = join(folder, 'gateway.yaml');
  const receive = 'receive: { fields: { from: from, text: text, id: id } }';
  writeFileSync(path, `send: { url: "http://127.0.0.1:9/?to={to}&text={text}" }\n${receive}\n`);
  return path;
}

test('real phones are not texted for the demo: a start needs a scheme that is named, once', async () => {
  const folder = newFolder(onTestFinished);
  const [path, schemePath] = [join(folder, 'line.db'), join(folder, 'valley.yaml')];
  writeFileSync(schemePath, VALLEY);
  const settings = {
    BUNDLINE_DB: path,
    BUNDLINE_CARRIER: 'gateway',
    BUNDLINE_GATEWAY: gatewayFile(folder),
  };
  const told = `BUNDLINE_SCHEME must name your scheme’s file: ${path} holds no scheme yet, and with real phones the demo is not used\n`;
  expect(await runToEnd(settings, onTestFinished)).toEqual({ code: 1, stdout: '', stderr: told });
  // A database that is there and empty is told in the same words.
  writeFileSync(path, '');
  expect(await runToEnd(settings, onTestFinished)).toEqual({ code: 1, stdout: '', stderr: told });
  const first = await startServer({ ...settings, BUNDLINE_SCHEME: schemePath }, onTestFinished);
  expect(await first.end('SIGTERM')).toBe(0);
  const second = await startServer(settings, onTestFinished);
  expect(await second.end('SIGTERM')).toBe(0);
}, 60_000);

test('a secret of the screens opens the line to those who carry it; without one only this machine finds it', async () => {
  const secret = 'a long enough secret';
  const serve = (more: Record<string, string>) =>
    startServer({ BUNDLINE_DB: join(newFolder(onTestFinished), 'line.db'), ...more }, onTestFinished);
  const [open, shut] = [await serve({ BUNDLINE_USSD_SECRET: secret }), await serve({})];
  // Another address of this machine: only who listens on all of them is found there.
  const at = (server: { readonly url: string }, path: string, init: RequestInit = {}) =>
    fetch(server.url.replace('127.0.0.1', '127.0.0.2') + path, init);
  const body = new URLSearchParams({ sessionId: 'S1', phoneNumber: '+447700900002', text: '' });
  const screen = { method: 'POST', body };
  const letIn = await at(open, '/ussd', { ...screen, headers: { 'x-ussd-secret': secret } });
  expect(await letIn.text()).toMatch(/^CON /);
  expect((await at(open, '/ussd', screen)).status).toBe(403);
  await expect(at(shut, '/ussd', screen)).rejects.toThrow();
}, 60_000);
