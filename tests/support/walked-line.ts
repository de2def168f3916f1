/** A line of the demo scheme that random keys walk over: real HTTP, restarts, hits delivered twice, and what the database then holds. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import Database from 'better-sqlite3';
import { simulatedClock } from '../../src/clock.ts';
import { countedIds } from '../../src/store/ids.ts';
import type { Screen } from '../../src/talk/screens/screen.ts';
import type { UssdShape } from '../../src/web/ussd/shape.ts';
import { NOON_MS, newFolder } from './test-line.ts';
import { screensOn } from './ussd.ts';

const DEMO = readFileSync(
  fileURLToPath(new URL('../../scripts/demo/orrowe-valley.yaml', import.meta.url)),
  'utf8',
);

/** Phones of growers in the demo: with three plots, one, and two people; two phones of one grower; and an agent's. */
export const PHONES = ['001', '006', '008', '010', '016', '990'].map((end) => `+447700900${end}`);

/** A request as it goes over the wire. */
export interface Request {
  readonly phone: string;
  readonly session: string;
  readonly input: string;
  readonly hit: number;
}

export interface Answer {
  readonly status: number;
  readonly body: string;
}

/** What the line keeps of a phone's session. */
export interface KeptSession {
  readonly screen: Screen;
  readonly answer: string;
}

type Row = Readonly<Record<string, unknown>>;

/** Opens the demo with all its people speaking `lang`; `close` ends the line and removes its files. */
export async function walkedLine(lang: string, shape: Partial<UssdShape>) {
  const last: (() => void)[] = [];
  const path = join(
    newFolder((undo) => last.push(undo)),
    'line.db',
  );
  const [clock, makeId] = [simulatedClock(NOON_MS), countedIds('w')];
  const text = DEMO.replaceAll('lang: en', `lang: ${lang}`);
  const common = { path, clock, makeId };
  let life = await begin(shape, { ...common, schemeText: text });
  const db = new Database(path, { readonly: true });
  const faults: string[] = [];
  const end = async () => {
    faults.push(...life.line.log.lines.filter((one) => one.includes('could not')));
    await life.end();
  };
  return {
    clock,
    faults: () => [...faults, ...life.line.log.lines.filter((one) => one.includes('could not'))],
    send: (request: Request) => send(life.url, shape, request),
    restart: async () => {
      await end();
      life = await begin(shape, { ...common, schemeText: null });
    },
    reports: () => db.prepare('select * from reports order by id').all() as readonly Row[],
    texts: () => db.prepare('select count(*) from texts_in').pluck().get() as number,
    /** All that the database holds but the sessions themselves, to be compared. */
    rows: () => {
      const tables = db
        .prepare("select name from sqlite_master where type = 'table' order by name")
        .pluck()
        .all();
      const kept = (tables as readonly string[]).filter((name) => name !== 'ussd_sessions');
      return JSON.stringify(kept.map((name) => [name, db.prepare(`select * from "${name}"`).all()]));
    },
    /** All that a confirmed screen can write down, to be compared. */
    records: () =>
      JSON.stringify(
        ['reports', 'undos', 'troubles', 'seasons'].map((name) =>
          db.prepare(`select * from "${name}"`).all(),
        ),
      ),
    session: (phone: string): KeptSession | null => {
      const row = db.prepare('select screen, answer from ussd_sessions where phone = ?').get(phone);
      const kept = row as { readonly screen: string; readonly answer: string } | undefined;
      return kept ? { screen: JSON.parse(kept.screen) as Screen, answer: kept.answer } : null;
    },
    close: async () => {
      db.close();
      await end();
      for (const undo of last) undo();
    },
  };
}

/** One life of the line, from its start to its end. */
async function begin(shape: Partial<UssdShape>, parts: NonNullable<Parameters<typeof screensOn>[2]>) {
  const undos: (() => Promise<void> | void)[] = [];
  const opened = await screensOn((undo) => undos.push(undo), shape, parts);
  const end = async () => {
    for (const undo of undos.reverse()) await undo();
  };
  return { ...opened, end };
}

async function send(url: string, shape: Partial<UssdShape>, request: Request): Promise<Answer> {
  const { phone, session, input, hit } = shape.fields ?? COMMON_FIELDS;
  const named = [
    [phone, request.phone],
    [session, request.session],
    [input, request.input],
    [hit, String(request.hit)],
  ].flatMap(([name, value]): [string, string][] =>
    name && value !== undefined ? [[name ?? '', value ?? '']] : [],
  );
  const isJson = shape.body === 'json';
  const body = isJson ? JSON.stringify(Object.fromEntries(named)) : new URLSearchParams(named);
  const headers = isJson ? { headers: { 'content-type': 'application/json' } } : {};
  const response = await fetch(url, { method: 'POST', body, ...headers });
  return { status: response.status, body: await response.text() };
}

const COMMON_FIELDS = { phone: 'phoneNumber', session: 'sessionId', input: 'text', hit: null } as const;
