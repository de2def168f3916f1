/** The check of a plain HTTP gateway: the gateway itself, the way back to the line, the secret, a test text. */
import { expect, onTestFinished, test } from 'vitest';
import { type CheckedSettings, carrierCheckCommand } from '../../src/commands/carrier-check.ts';
import { createApp } from '../../src/web/create-app.ts';
import { listen } from '../../src/web/listen.ts';
import { fakeGateway, gatewayWith, type Manner, type Sections, saying } from '../support/gateways.ts';
import { runCommand } from '../support/run-command.ts';
import { testLine } from '../support/test-line.ts';

const AGENT = '+447700900990';
const IN_FIELD = { field: 'key', value: 's3cret-word' };
const IN_HEADER = { header: 'X-Key', value: 's3cret-word' };

interface Scene {
  readonly manner?: Manner;
  /** The secret of the file that is checked. */
  readonly secret?: object | null;
  /** The sections with which the line runs, when others than those checked; null runs it without a gateway. */
  readonly running?: Sections | null;
  readonly send?: object;
}

/** A gateway, and a line that runs; with its settings, and its address as a public one. */
async function scene({ manner = saying(202, 'OK'), secret = null, running, send = {} }: Scene = {}) {
  const line = await testLine(onTestFinished);
  const fake = await fakeGateway(manner, onTestFinished);
  const url = `${fake.url}/send?user=me&password=s3cret&to={to}&text={text}`;
  const checked = { send: { url, ...send }, receive: { secret } };
  const gateway = gatewayWith(checked);
  const served = running === null ? null : gatewayWith(running ?? checked);
  const listening = await listen(createApp(line, { signing: null, gateway: served }), 0, '127.0.0.1');
  onTestFinished(() => listening.stop());
  const settings: CheckedSettings = {
    port: listening.port,
    publicUrl: null,
    signing: null,
    carrier: { kind: 'gateway', gateway },
  };
  return { line, fake, settings, base: `http://127.0.0.1:${listening.port}` };
}

async function check(settings: CheckedSettings, ...args: string[]) {
  const { code, out, err } = await runCommand(() => carrierCheckCommand(args, settings));
  expect([...out, ...err].join('\n')).not.toContain('s3cret');
  return { code, out, wrong: out.filter((row) => row.startsWith('WRONG')), mend: out.at(-1) };
}

test.each([IN_FIELD, IN_HEADER])(
  'all is well, with the secret %o; nothing is sent or kept',
  async (secret) => {
    const { line, settings, base, fake } = await scene({ secret });
    const { code, out } = await check(settings);
    expect(out).toEqual([
      'good   The gateway’s file has no mistakes.',
      `good   The gateway answers at ${fake.url}.`,
      `good   The line answers at ${base}/healthz.`,
      'good   The line takes who has the secret and refuses others.',
    ]);
    expect(code).toBe(0);
    expect(fake.got.map(({ method, url }) => `${method} ${url}`)).toEqual(['GET /']);
    expect(await line.db.selectFrom('texts_in').selectAll().execute()).toEqual([]);
  },
);

test('over the public address, also one with a path that leads nowhere', async () => {
  const { settings, base } = await scene({ secret: IN_FIELD });
  expect((await check({ ...settings, port: 1, publicUrl: `${base}/` })).code).toBe(0);
  const { code, wrong, out } = await check({ ...settings, publicUrl: `${base}/other` });
  expect([code, wrong.length]).toEqual([1, 2]);
  expect(wrong[0]).toContain(`Something else than the line answers at ${base}/other/healthz (HTTP 404)`);
  expect(out.join('\n')).toContain('Check BUNDLINE_PUBLIC_URL');
});

test('a gateway that does not answer, and a line that does not run, are told apart', async () => {
  const { settings } = await scene();
  const gone = await listen(() => undefined, 0, '127.0.0.1');
  await gone.stop();
  const nowhere = gatewayWith({ send: { url: `http://127.0.0.1:${gone.port}/?{to}{text}` } });
  const first = await check({ ...settings, carrier: { kind: 'gateway', gateway: nowhere } });
  expect(first.wrong).toEqual([
    `WRONG  The gateway cannot be reached at http://127.0.0.1:${gone.port}: nothing listens there.`,
  ]);
  const second = await check({ ...settings, port: gone.port });
  expect(second.wrong[0]).toContain(`The line cannot be reached: http://127.0.0.1:${gone.port}/healthz`);
  expect(second.out.join('\n')).toContain('Check PORT, and that the line runs.');
  expect([first.code, second.code]).toEqual([1, 1]);
  expect((await check({ ...settings, port: 0 })).wrong[0]).toContain('takes any free port');
});

test.each([
  ['without a gateway', null, '(HTTP 404)', 'the same BUNDLINE_CARRIER and BUNDLINE_GATEWAY'],
  [
    'with another secret',
    { receive: { secret: { field: 'key', value: 'another-word' } } },
    'refuses the secret',
    'anew',
  ],
  ['with no secret', { receive: {} }, 'A wrong secret is not refused', 'anew'],
] as const)('a line that runs %s is told', async (_, running, what, mend) => {
  const { settings } = await scene({ secret: IN_FIELD, running });
  const found = await check(settings);
  expect([found.code, found.wrong.length]).toEqual([1, 1]);
  expect(found.wrong[0]).toContain(what);
  expect(found.mend).toContain(mend);
});

test('without a secret only this machine may bring texts; through a proxy that is wrong', async () => {
  const { settings, base } = await scene();
  const here = await check(settings);
  expect([here.code, here.out.at(-1)]).toEqual([0, expect.stringContaining('from this machine only')]);
  const proxy = await listen(
    (request, response) => {
      const headers = { 'x-forwarded-for': '203.0.113.9' };
      fetch(base + (request.url ?? ''), { headers }).then(
        (answer) => answer.text().then((text) => response.writeHead(answer.status).end(text)),
        () => response.destroy(),
      );
    },
    0,
    '127.0.0.1',
  );
  onTestFinished(() => proxy.stop());
  const outside = await check({ ...settings, publicUrl: `http://127.0.0.1:${proxy.port}` });
  expect(outside.wrong).toEqual([expect.stringContaining('takes nothing from another machine (HTTP 403)')]);
  expect(outside.mend).toContain('Set receive.secret');
});

test('a test text goes out as the file says', async () => {
  const { settings, fake } = await scene();
  const { code, out } = await check(settings, '--text', AGENT);
  expect([code, out.at(-1)]).toEqual([
    0,
    'good   The gateway took the test text. See whether the phone has it.',
  ]);
  const [, text] = fake.got;
  const query = new URL(`http://a${text?.url}`).searchParams;
  expect([query.get('to'), query.get('text')]).toEqual([
    AGENT,
    expect.stringContaining('a test of the line'),
  ]);
});

test.each([
  [saying(403), {}, 'did not take the test text now (HTTP 403)', 'user and password'],
  [saying(429), {}, 'did not take the test text now (HTTP 429)', 'Try again'],
  [saying(422), {}, 'refused the test text (HTTP 422)', 'Check the number'],
  [saying(200, 'ERROR'), { taken: { pattern: '^OK' } }, 'Nobody can tell', 'send.taken'],
  [
    saying(500),
    {},
    'Nobody can tell whether the gateway took the test text (HTTP 500)',
    'See whether the phone',
  ],
])('a gateway that does not take it is told (%#)', async (manner, send, what, mend) => {
  const { settings } = await scene({ manner, send });
  const found = await check(settings, '--text', AGENT);
  expect([found.code, found.wrong.length]).toEqual([1, 1]);
  expect(found.wrong[0]).toContain(what);
  expect(found.mend).toContain(mend);
});
