import { get } from 'node:http';
import { expect, onTestFinished, test } from 'vitest';
import { queueText } from '../../src/store/outbox.ts';
import { createApp } from '../../src/web/create-app.ts';
import { listen } from '../../src/web/listen.ts';
import { gatewayWith, type Sections } from '../support/gateways.ts';
import { HOUR_MS, testLine } from '../support/test-line.ts';
import { ANN, STRANGER } from '../support/valley-scheme.ts';
import { postForm, smsForm } from '../support/webhook.ts';

const BENGALI = 'জমি';

async function started(sections: Sections = {}) {
  const line = await testLine(onTestFinished);
  const listening = await listen(
    createApp(line, { signing: null, gateway: gatewayWith(sections) }),
    0,
    '127.0.0.1',
  );
  onTestFinished(() => listening.stop());
  const base = `http://127.0.0.1:${listening.port}`;
  const texts = () => line.db.selectFrom('texts_in').select(['phone', 'body', 'carrier_id']).execute();
  return { line, base, url: `${base}/gateway`, texts };
}

async function asked(url: string, init?: RequestInit) {
  const response = await fetch(url, init);
  const { status, headers } = response;
  return { status, headers, octets: Buffer.from(await response.arrayBuffer()) };
}

const from = encodeURIComponent(ANN);

test('a text by query is answered as plain text', async () => {
  const { url, texts } = await started();
  const { status, headers, octets } = await asked(`${url}?from=${from}&text=ploughed+1&id=m1`);
  expect([status, headers.get('content-type')]).toEqual([200, 'text/plain; charset=UTF-8']);
  expect(octets.toString('utf8')).toBe('ploughed 1 (0 before, text 1)');
  expect(await texts()).toEqual([{ phone: ANN, body: 'ploughed 1', carrier_id: `m1 ${ANN}` }]);
});

test('a text by form, with names from the settings, and its secret in the address', async () => {
  const fields = { from: 'sender', text: 'msg', time: 'sent' };
  const secret = { field: 'key', value: 'long-secret' };
  const { url, texts } = await started({ receive: { fields, secret } });
  const body = new URLSearchParams({ sender: ANN, msg: 'cédé & co', sent: '1' });
  expect((await asked(`${url}?key=long-secret`, { method: 'POST', body })).status).toBe(200);
  expect(await texts()).toMatchObject([{ phone: ANN, body: 'cédé & co' }]);
});

test.each([
  ['UTF-8', 'd%C3%A9j%C3%A0', 'charset=UTF-8', 'déjà'],
  ['no charset, UTF-8', 'd%C3%A9j%C3%A0', '', 'déjà'],
  ['no charset, but Latin-1', 'd%E9j%E0', '', 'déjà'],
  ['Latin-1', 'd%E9j%E0', 'charset=ISO-8859-1', 'déjà'],
  ['Windows-1252', '%80+1', 'charset=windows-1252', '€ 1'],
  ['Latin-1 with the web’s letters', '%80+%92%E9', 'charset=latin1', '€ ’é'],
  ['a charset that nobody knows', 'd%C3%A9j%C3%A0', 'charset=x-klingon', 'déjà'],
  ['UCS-2 by its coding', '%09%9C%09%AE%09%BF', 'coding=2', BENGALI],
  ['UCS-2 by name', '%09%9C%09%AE%09%BF', 'coding=2&charset=UTF-16BE', BENGALI],
  ['UCS-2 whose octets look like signs', '%00+%00%26%00%3D%00a', 'charset=UCS-2', '&=a'],
  ['UTF-16 with its own mark', '%FF%FE%9C%09%AE%09%BF%09', 'charset=UTF-16', BENGALI],
  ['UTF-8 though the coding is 2', '%E0%A6%9C%E0%A6%AE%E0%A6%BF', 'coding=2&charset=UTF-8', BENGALI],
  ['half an octet', '100%&x=%zz', '', '100%'],
])('%s is read as it was written', async (_, octets, named, words) => {
  const { url, texts } = await started();
  const query = `from=${from}&id=1&text=${octets}&${named}`;
  expect((await asked(`${url}?${query}`)).status).toBe(200);
  const type = { 'content-type': 'application/x-www-form-urlencoded' };
  const posted = await asked(url, { method: 'POST', body: query.replace('id=1', 'id=2'), headers: type });
  expect(posted.status).toBe(200);
  expect((await texts()).map(({ body }) => body.trim())).toEqual([words, words]);
});

test('the answer says in which alphabet it is, and is in it', async () => {
  const send = { ucs2: { coding: '2', charset: 'UTF-16BE' } };
  const { url } = await started({ send, receive: { answer: { codingHeader: 'X-Kannel-Coding' } } });
  const accent = await asked(`${url}?from=${from}&id=1&text=%C3%A9`);
  expect([accent.headers.get('content-type'), accent.headers.get('x-kannel-coding')]).toEqual([
    'text/plain; charset=UTF-8',
    '0',
  ]);
  expect(accent.octets.toString('utf8')).toContain('é');
  const wide = await asked(`${url}?from=${from}&id=2&text=${encodeURIComponent(BENGALI)}`);
  expect([wide.headers.get('content-type'), wide.headers.get('x-kannel-coding')]).toEqual([
    'text/plain; charset=UTF-16BE',
    '2',
  ]);
  expect(new TextDecoder('utf-16be').decode(wide.octets)).toContain(BENGALI);
});

test('the same delivery again gets the same answer; the same words later are a new text', async () => {
  const { url, texts } = await started();
  const at = (time: string) => asked(`${url}?from=${from}&text=ploughed+1&time=${time}`);
  const [first, again, later] = [await at('10:01'), await at('10:01'), await at('10:05')];
  expect(again.octets).toEqual(first.octets);
  expect(later.octets.toString()).toBe('ploughed 1 (1 before, text 2)');
  expect(await texts()).toHaveLength(2);
});

test('without an id, the same words of two phones at the same time are two texts', async () => {
  const { url, texts } = await started();
  await asked(`${url}?from=${from}&text=MENU&time=1`);
  await asked(`${url}?from=${encodeURIComponent(STRANGER)}&text=MENU&time=1`);
  expect(await texts()).toHaveLength(2);
});

test.each([
  ['no sender', `text=x&id=1`, 'from'],
  ['two senders', `from=${from}&from=${from}&text=x&id=1`, 'from'],
  ['no text', `from=${from}&id=1`, 'text'],
  ['neither id nor time', `from=${from}&text=x`, 'id or time'],
])('%s: 400', async (_, query, missing) => {
  const { url, texts } = await started();
  const { status, octets } = await asked(`${url}?${query}`);
  expect([status, octets.toString()]).toEqual([400, `Missing or repeated: ${missing}.\n`]);
  expect(await texts()).toEqual([]);
});

test('numbers without a plus are read by the settings; what cannot be answered gets an empty answer', async () => {
  const { url, texts } = await started({ receive: { number: 'digits' } });
  await asked(`${url}?from=447700900001&text=a&id=1`);
  await asked(`${url}?from=+447700900001&text=b&id=2`);
  expect((await texts()).map(({ phone }) => phone)).toEqual([ANN, ANN]);
  const short = await asked(`${url}?from=60123&text=c&id=3`);
  expect([short.status, short.octets.length]).toEqual([200, 0]);
  expect(await texts()).toHaveLength(2);
});

test('a gateway that ignores responses gets the answer as a text of its own, once', async () => {
  const { line, url } = await started({ receive: { answer: { by: 'outbox' } } });
  const text = () => asked(`${url}?from=${from}&text=ploughed+1&id=m1`);
  const [first, again] = [await text(), await text()];
  expect([first.octets.length, again.octets.length]).toEqual([0, 0]);
  const queued = await line.db.selectFrom('outbox').select(['phone', 'text', 'key']).execute();
  const own = queued.filter(({ key }) => key.startsWith('answer:'));
  expect(own).toMatchObject([{ phone: ANN, text: 'ploughed 1 (0 before, text 1)' }]);
});

test.each([
  ['a field', { field: 'key', value: 'long-secret' }, 'key=long-secret', {}],
  ['a header', { header: 'X-Key', value: 'long-secret' }, '', { 'x-key': 'long-secret' }],
])(
  'a secret in %s opens texts and reports; a wrong one, or none, does not',
  async (_, secret, query, headers) => {
    const { url, texts } = await started({ receive: { secret } });
    const text = `${url}?from=${from}&text=x&id=1`;
    const report = `${url}/report?id=t1&status=1`;
    for (const path of [text, report]) {
      expect((await asked(path)).status).toBe(403);
      expect((await asked(`${path}&key=long-secreT`, { headers: { 'x-key': 'no' } })).status).toBe(403);
    }
    expect(await texts()).toEqual([]);
    expect((await asked(`${text}&${query}`, { headers })).status).toBe(200);
    expect((await asked(`${report}&${query}`, { headers })).status).toBe(204);
  },
);

test.each([
  ['another machine, through a proxy', { 'x-forwarded-for': '192.0.2.7' }],
  ['a foreign page', { 'sec-fetch-site': 'cross-site' }],
])('without a secret, %s is refused, on every way in', async (_, headers) => {
  const { base, url, texts } = await started();
  const path = `${url}?from=${from}&text=x&id=1`;
  expect(await statusOf(path, headers)).toBe(403);
  expect((await postForm(base, smsForm('SM1', ANN, 'x'), headers)).status).toBe(403);
  expect(await texts()).toEqual([]);
  expect(await statusOf(path, {})).toBe(200);
});

/** `fetch` may set such headers itself. */
function statusOf(url: string, headers: Record<string, string>): Promise<number | undefined> {
  return new Promise((resolve, reject) => {
    get(url, { headers }, (response) => {
      response.resume();
      resolve(response.statusCode);
    }).on('error', reject);
  });
}

test('a look with HEAD is no text', async () => {
  const { url, texts } = await started();
  expect((await asked(`${url}?from=${from}&text=x&id=1`, { method: 'HEAD' })).status).toBe(405);
  expect(await texts()).toEqual([]);
});

test('reports move a text by our id, never back; a word that the settings do not know changes nothing', async () => {
  const { line, url } = await started();
  const nowMs = line.clock.nowMs();
  const times = { notBeforeMs: nowMs, expiresMs: nowMs + HOUR_MS };
  await queueText(line.db, { id: 't1', key: 'k', phone: ANN, text: 'x', ...times }, nowMs, null);
  const state = async (word: string) => {
    expect((await asked(`${url}/report?id=t1&status=${word}`)).status).toBe(204);
    return (await line.db.selectFrom('outbox').select('state').executeTakeFirstOrThrow()).state;
  };
  expect([await state('77'), await state('8'), await state('1'), await state('8')]).toEqual([
    'queued',
    'handed',
    'delivered',
    'delivered',
  ]);
  expect(line.log.lines).toHaveLength(1);
});

test('a report finds a text by the gateway’s id, and by ours when the gateway has given it one', async () => {
  const report = { id: 'ours', gatewayId: 'theirs', status: 's', words: { ok: 'delivered' } };
  const { line, url } = await started({ report });
  const nowMs = line.clock.nowMs();
  const times = { notBeforeMs: nowMs, expiresMs: nowMs + HOUR_MS };
  for (const id of ['t1', 't2'])
    await queueText(line.db, { id, key: id, phone: ANN, text: 'x', ...times }, nowMs, null);
  await line.db
    .updateTable('outbox')
    .set({ carrier_id: 'm1', state: 'handed' })
    .where('id', '=', 't1')
    .execute();
  await line.db
    .updateTable('outbox')
    .set({ carrier_id: 'm2', state: 'handed' })
    .where('id', '=', 't2')
    .execute();
  await asked(`${url}/report?theirs=m1&s=ok`);
  await asked(`${url}/report?ours=t2&s=ok`);
  const states = await line.db.selectFrom('outbox').select('state').execute();
  expect(states).toEqual([{ state: 'delivered' }, { state: 'delivered' }]);
});
