import { expect, onTestFinished, test } from 'vitest';
import type { TextOut } from '../../src/carriers/carrier.ts';
import { gatewayCarrier } from '../../src/carriers/gateway-carrier.ts';
import { queueText } from '../../src/store/outbox.ts';
import { sweepOutbox } from '../../src/sweeps/sweep-outbox.ts';
import { listen } from '../../src/web/listen.ts';
import { fakeGateway, gatewayWith, type Manner, saying } from '../support/gateways.ts';
import { HOUR_MS, testLine } from '../support/test-line.ts';
import { ANN } from '../support/valley-scheme.ts';

const BENGALI = 'কাল জমি চাষ';

function textOut(parts: Partial<TextOut> = {}): TextOut {
  const text = { to: ANN, text: 'Level plot 1', id: 't1', key: 'k1', attempt: 1, doubtful: false };
  return { ...text, queuedMs: 0, validForMs: HOUR_MS, ...parts };
}

async function started(manner: Manner, send: (url: string) => object = () => ({})) {
  const gateway = await fakeGateway(manner, onTestFinished);
  const settings = { url: `${gateway.url}/send?to={to}&text={text}&coding={coding}`, partsPerSecond: null };
  const { sending } = gatewayWith({ send: { ...settings, ...send(gateway.url) } });
  return { ...gateway, carrier: gatewayCarrier(sending) };
}

test('a GET has every value in its place, percent-encoded, with the alphabet that the text needs', async () => {
  const { carrier, got } = await started(saying(200));
  const handings = [
    await carrier.send(textOut({ text: 'Dépêche & co = 100% {to}#+' })),
    await carrier.send(textOut({ text: 'Crédit 1' })),
    await carrier.send(textOut({ text: BENGALI })),
  ];
  expect(handings).toEqual(Array.from({ length: 3 }, () => ({ kind: 'handed', carrierId: 'gateway:t1' })));
  const queries = got.map(({ url }) => new URL(url, 'http://x').searchParams);
  expect(queries.map((query) => query.get('text'))).toEqual([
    'Dépêche & co = 100% {to}#+',
    'Crédit 1',
    BENGALI,
  ]);
  expect(queries.map((query) => query.get('coding'))).toEqual(['2', '0', '2']);
  expect(queries.map((query) => query.get('to'))).toEqual([ANN, ANN, ANN]);
  expect(got[1]?.url).toBe('/send?to=%2B447700900001&text=Cr%C3%A9dit%201&coding=0');
});

test('numbers without a plus, and octets of other charsets, by settings', async () => {
  const { carrier, got } = await started(saying(200), () => ({
    number: 'digits',
    gsm: { coding: '7bit', charset: 'ISO-8859-1' },
    ucs2: { coding: 'wide', charset: 'UTF-16BE' },
  }));
  await carrier.send(textOut({ text: 'é' }));
  await carrier.send(textOut({ text: 'Δ' }));
  await carrier.send(textOut({ text: 'জ' }));
  expect(got.map(({ url }) => url)).toEqual([
    '/send?to=447700900001&text=%E9&coding=7bit',
    '/send?to=447700900001&text=%03%94&coding=wide',
    '/send?to=447700900001&text=%09%9C&coding=wide',
  ]);
});

test('a form is posted, and JSON is, with places within its fields and headers', async () => {
  const form = await started(saying(200), (url) => ({
    url,
    method: 'POST',
    fields: { 'phone[]': '{to}', message: 'Line: {text}', key: '{secret}', hex: '{hex}' },
    values: { secret: 'a&b' },
  }));
  await form.carrier.send(textOut({ text: 'é & ê' }));
  expect(form.got[0]?.type).toBe('application/x-www-form-urlencoded');
  expect([...new URLSearchParams(form.got[0]?.body)]).toEqual([
    ['phone[]', ANN],
    ['message', 'Line: é & ê'],
    ['key', 'a&b'],
    ['hex', 'C3A9202620C3AA'],
  ]);
  const json = await started(saying(200), (url) => ({
    url: `${url}/v1/{id}`,
    method: 'POST',
    format: 'json',
    fields: { message: { text: '{text}' }, to: ['{to}'], ttl: '{seconds}', withReport: true },
    headers: { authorization: 'Bearer x' },
  }));
  await json.carrier.send(textOut({ text: `"${BENGALI}"`, id: 'a/b' }));
  expect(json.got[0]).toMatchObject({ method: 'POST', url: '/v1/a%2Fb', type: 'application/json' });
  expect(JSON.parse(Buffer.from(json.got[0]?.body ?? '', 'latin1').toString('utf8'))).toEqual({
    message: { text: `"${BENGALI}"` },
    to: [ANN],
    ttl: '3600',
    withReport: true,
  });
});

test.each<[string, Manner, object, object]>([
  ['taken, with an id', saying(202, '0: id=m-77'), {}, { kind: 'handed', carrierId: 'm-77' }],
  ['taken, but no word of it', saying(200, 'ERROR 5'), {}, { kind: 'unknown' }],
  [
    'busy by its words',
    saying(200, 'ERROR: queue full'),
    { busy: { status: [200], pattern: 'full' } },
    { kind: 'retry', why: 'HTTP 200' },
  ],
  [
    'busy, with a time',
    saying(429, '', { 'retry-after': '90' }),
    {},
    { kind: 'retry', why: 'HTTP 429', afterMs: 90_000 },
  ],
  [
    'refused by its words',
    saying(403, 'Not routable'),
    { refused: { status: [403], pattern: 'Not routable' } },
    { kind: 'failed', why: 'HTTP 403' },
  ],
  ['refused for us', saying(403, 'Who are you?'), {}, { kind: 'retry', alarm: true, afterMs: 600_000 }],
  ['no such text', saying(400), {}, { kind: 'failed', why: 'HTTP 400' }],
  ['its own fault', saying(500), {}, { kind: 'unknown', why: 'HTTP 500' }],
  ['somewhere else', saying(307, '', { location: '/other' }), {}, { kind: 'retry', alarm: true }],
  ['cut off', (response) => void response.destroy(), {}, { kind: 'unknown' }],
  ['silent', () => undefined, { timeoutMs: 100 }, { kind: 'unknown', why: 'timeout' }],
  [
    'begun and then silent',
    (response) => void response.writeHead(202).write('0: id='),
    { timeoutMs: 100 },
    { kind: 'unknown', why: 'timeout' },
  ],
])('an answer that is %s', async (_, manner, settings, handing) => {
  const taken = { status: [200, 202], pattern: '^0: id=(?<id>\\S+)' };
  const { carrier, got } = await started(manner, () => ({ taken, ...settings }));
  expect(await carrier.send(textOut())).toMatchObject(handing);
  expect(got).toHaveLength(1);
});

test('nobody there: surely not taken', async () => {
  const gone = await listen(() => undefined, 0, '127.0.0.1');
  await gone.stop();
  const { sending } = gatewayWith({ send: { url: `http://127.0.0.1:${gone.port}/?{to}{text}` } });
  expect(await gatewayCarrier(sending).send(textOut())).toEqual({ kind: 'retry', why: 'ECONNREFUSED' });
});

async function sweptTwice(doubles: string) {
  const { carrier, got } = await started(saying(502), () => ({ doubles }));
  const line = await testLine(onTestFinished, { carrier });
  const nowMs = line.clock.nowMs();
  const times = { notBeforeMs: nowMs, expiresMs: nowMs + HOUR_MS };
  await queueText(line.db, { id: 't1', key: 'k1', phone: ANN, text: 'Level', ...times }, nowMs, null);
  await sweepOutbox(line);
  line.clock.set(nowMs + HOUR_MS / 2);
  await sweepOutbox(line);
  const [row] = await line.db.selectFrom('outbox').select(['state', 'why']).execute();
  return { row, sent: got.length };
}

test('a text whose end is not known is not sent twice, and ends as failed with the reason', async () => {
  expect(await sweptTwice('never')).toEqual({
    sent: 1,
    row: { state: 'failed', why: expect.stringContaining('not sent twice') },
  });
});

test('it is sent again only where the settings say that doubles are better than losses', async () => {
  expect(await sweptTwice('better-than-losses')).toMatchObject({ sent: 2, row: { state: 'queued' } });
});
