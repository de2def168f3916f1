import { expect, onTestFinished, test } from 'vitest';
import { carrierCheckCommand } from '../../src/commands/carrier-check.ts';
import { createApp } from '../../src/web/create-app.ts';
import { listen } from '../../src/web/listen.ts';
import { type CarrierFaults, fakeAccount } from '../support/fake-account.ts';
import { runCommand } from '../support/run-command.ts';
import { testLine } from '../support/test-line.ts';
import { LINE } from '../support/valley-scheme.ts';

const AGENT = '+447700900990';

/** A line that runs behind its public address, and a carrier; `isUnsigned` runs the line without a token. */
async function scene(faults: CarrierFaults = {}, isUnsigned = false) {
  const line = await testLine(onTestFinished);
  const carrier = await fakeAccount(onTestFinished, faults);
  let app: ReturnType<typeof createApp> | null = null;
  const listening = await listen((request, response) => app?.(request, response), 0, '127.0.0.1');
  onTestFinished(() => listening.stop());
  const publicUrl = `http://127.0.0.1:${listening.port}`;
  app = createApp(line, { signing: isUnsigned ? null : { token: 'secret', publicUrl } });
  const account = {
    kind: 'twilio',
    accountSid: 'AC1',
    token: 'secret',
    from: LINE,
    partsPerSecond: 1,
  } as const;
  const settings = {
    carrier: { ...account, baseUrl: carrier.baseUrl },
    signing: { token: 'secret', publicUrl },
    port: 0,
    publicUrl,
  };
  return { line, carrier, settings };
}

type Settings = Awaited<ReturnType<typeof scene>>['settings'];

async function check(settings: Settings, ...args: string[]) {
  const waits: number[] = [];
  const means = { fetchFrom: fetch, waitMs: async (ms: number) => void waits.push(ms) };
  const { code, out, err } = await runCommand(() => carrierCheckCommand(args, settings, means));
  expect([...out, ...err].join('\n')).not.toMatch(/secret|wrong-token/);
  return { code, out, err, waits, wrong: out.filter((row) => row.startsWith('WRONG')) };
}

test('all is well: account, address and signature; the line keeps nothing of it', async () => {
  const { line, settings, carrier } = await scene();
  const { code, out } = await check(settings);
  expect(out).toEqual([
    'good   The carrier knows the account and its token.',
    `good   The line answers at ${settings.signing.publicUrl}/healthz.`,
    'good   The line takes signed requests and refuses others.',
  ]);
  expect(code).toBe(0);
  expect(carrier.texts).toEqual([]);
  expect(await line.db.selectFrom('texts_in').selectAll().execute()).toEqual([]);
  expect(line.log.lines).toEqual([]);
});

test('a wrong password, an unknown account, one that is shut, and a host that is not there are told apart', async () => {
  const { settings } = await scene();
  const { carrier } = settings;
  const first = async (changed: object) =>
    (await check({ ...settings, carrier: { ...carrier, ...changed } })).wrong[0];
  expect(await first({ token: 'wrong-token' })).toContain('refuses the account or its token (HTTP 401)');
  expect(await first({ accountSid: 'AB2' })).toContain('knows no such account');
  expect(await first({ baseUrl: 'http://127.0.0.1:1' })).toContain('cannot be reached at http://127.0.0.1:1');
  const shut = await scene({ account: 'suspended' });
  expect((await check(shut.settings)).wrong).toEqual(['WRONG  The account is suspended.']);
  expect((await check(shut.settings)).code).toBe(1);
});

test('a public address that leads nowhere, or elsewhere, is told', async () => {
  const { settings, carrier } = await scene();
  const at = (publicUrl: string) => check({ ...settings, signing: { ...settings.signing, publicUrl } });
  const elsewhere = await at(carrier.baseUrl);
  expect(elsewhere.wrong[0]).toContain(
    `Something else than the line answers at ${carrier.baseUrl}/healthz (HTTP 404)`,
  );
  expect(elsewhere.wrong[1]).toContain('(HTTP 404)');
  expect(elsewhere.code).toBe(1);
  const gone = await listen(() => undefined, 0, '127.0.0.1');
  await gone.stop();
  const nowhere = await at(`http://127.0.0.1:${gone.port}`);
  expect(nowhere.wrong).toHaveLength(2);
  expect(nowhere.wrong[0]).toContain('nothing listens there');
  expect(nowhere.code).toBe(1);
});

test('a running line with another token, or with none, is told', async () => {
  const { settings } = await scene();
  const other = { ...settings, signing: { ...settings.signing, token: 'wrong-token' } };
  expect((await check(other)).wrong[0]).toContain('refuses what is signed with this token');
  // The same line behind another spelling of its address.
  const publicUrl = settings.signing.publicUrl.replace('127.0.0.1', 'localhost');
  expect((await check({ ...settings, signing: { ...settings.signing, publicUrl } })).code).toBe(1);
  const open = await scene({}, true);
  const { wrong, code } = await check(open.settings);
  expect([wrong[0], code]).toEqual([
    expect.stringContaining('A wrong signature is not refused (HTTP 204)'),
    1,
  ]);
});

test('a test text is followed to its end', async () => {
  const { settings, carrier } = await scene();
  const { code, out, waits } = await check(settings, '--text', AGENT);
  expect(out.at(-1)).toBe('good   The test text was delivered.');
  expect([code, waits.length]).toEqual([0, 3]);
  expect(carrier.texts.map((form) => [form.get('To'), form.get('From')])).toEqual([[AGENT, LINE]]);
});

test.each([
  [
    { states: ['sent', 'undelivered'], errorCode: 30003 },
    'ended as undelivered (error 30003)',
    'switch it on',
  ],
  [{ states: ['failed'], errorCode: 30007 }, 'ended as failed (error 30007)', 'Ask the carrier why'],
  [{ refuses: 21610 }, 'refused the test text (error 21610)', 'text START from it'],
  [{ states: ['queued'] }, 'is still queued', 'Ask the carrier'],
] as const)('a text with %o is told', async (faults, what, mend) => {
  const { settings } = await scene(faults);
  const { code, out } = await check(settings, '--text', AGENT);
  expect([code, out.at(-2), out.at(-1)]).toEqual([
    1,
    expect.stringContaining(what),
    expect.stringContaining(mend),
  ]);
});

test('where the carrier tells no more than "sent", that is well', async () => {
  const { settings } = await scene({ states: ['sent'] });
  const { code, out } = await check(settings, '--text', AGENT);
  expect([code, out.at(-1)]).toEqual([0, expect.stringContaining('this carrier tells no more')]);
});

test('what is no number is not texted', async () => {
  const { settings, carrier } = await scene();
  for (const number of ['07700900990', '+44', 'me', ''])
    expect((await check(settings, '--text', number)).code, number).toBe(2);
  expect(carrier.texts).toEqual([]);
});

test('behind a proxy that takes a path off, the address with that path is checked', async () => {
  const { settings } = await scene();
  let app: ReturnType<typeof createApp> | null = null;
  const proxy = await listen(
    (request, response) => {
      const path = request.url ?? '';
      if (!path.startsWith('/bundline/')) return void response.writeHead(404).end();
      request.url = path.slice('/bundline'.length);
      app?.(request, response);
    },
    0,
    '127.0.0.1',
  );
  onTestFinished(() => proxy.stop());
  const publicUrl = `http://127.0.0.1:${proxy.port}/bundline/`;
  const line = await testLine(onTestFinished);
  app = createApp(line, { signing: { token: 'secret', publicUrl } });
  const at = (address: string) =>
    check({ ...settings, publicUrl: address, signing: { token: 'secret', publicUrl: address } });
  const { out, code } = await at(publicUrl);
  expect(out[1]).toBe(`good   The line answers at http://127.0.0.1:${proxy.port}/bundline/healthz.`);
  expect([out[2], code]).toEqual(['good   The line takes signed requests and refuses others.', 0]);
  expect((await at(`http://127.0.0.1:${proxy.port}`)).code).toBe(1);
});

test('with the desk it says that no real phone is reached, and what to set', async () => {
  const desk = { carrier: { kind: 'desk' }, signing: null, port: 8080, publicUrl: null } as const;
  for (const args of [[], ['--text', AGENT]]) {
    const { code, out } = await runCommand(() => carrierCheckCommand(args, desk));
    expect([code, out.length]).toEqual([1, 2]);
    expect(out[0]).toBe('WRONG  The carrier is the desk: no real phone is reached.');
    expect(out[1]).toContain('Set BUNDLINE_CARRIER to twilio or gateway');
  }
});
