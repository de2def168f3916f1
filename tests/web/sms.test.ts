import { expect, onTestFinished, test } from 'vitest';
import { testLine } from '../support/test-line.ts';
import { ANN, BEN, CYN_AND_DAN, STRANGER } from '../support/valley-scheme.ts';
import { postForm, smsForm, startWeb, text } from '../support/webhook.ts';

async function started() {
  const line = await testLine(onTestFinished);
  return { line, ...(await startWeb(line, onTestFinished)) };
}

async function countOf(
  line: Awaited<ReturnType<typeof testLine>>,
  table: 'reports' | 'texts_in' | 'reminders',
) {
  return (await line.db.selectFrom(table).select('id').execute()).length;
}

test('a report is answered as XML and kept with its answer', async () => {
  const { line, url } = await started();
  const answer = await text(url, 'SM1', ANN, 'ploughed 1');
  expect(answer).toMatchObject({ status: 200, text: 'ploughed 1 (0 before, text 1)' });
  expect(answer.type).toMatch(/^text\/xml/);
  const reports = await line.db.selectFrom('reports').selectAll().execute();
  expect(reports).toMatchObject([
    {
      season_id: 'test-valley/p1/1',
      activity: 'plough',
      stage: 'finished',
      done_on: '2027-03-10',
      phone: ANN,
    },
  ]);
  const texts = await line.db.selectFrom('texts_in').selectAll().execute();
  expect(texts).toMatchObject([
    { carrier_id: `SM1 ${ANN}`, body: 'ploughed 1', answer: answer.text, faulty: 0 },
  ]);
});

test('the same delivery again gets the same answer and changes nothing', async () => {
  const { line, url } = await started();
  const first = await text(url, 'SM1', ANN, 'ploughed 1');
  const talk = await line.db.selectFrom('phones').selectAll().where('number', '=', ANN).execute();
  const second = await text(url, 'SM1', ANN, 'ploughed 1');
  expect(second).toEqual(first);
  expect(line.log.lines).toEqual([]);
  expect(await countOf(line, 'reports')).toBe(1);
  expect(await line.db.selectFrom('phones').selectAll().where('number', '=', ANN).execute()).toEqual(talk);
});

test('the same delivery many times at once is one record, with one answer for all', async () => {
  const { line, url } = await started();
  const answers = await Promise.all(Array.from({ length: 20 }, () => text(url, 'SM1', ANN, 'ploughed 1')));
  expect(new Set(answers.map((answer) => answer.body)).size).toBe(1);
  expect(line.log.lines).toEqual([]);
  expect(await countOf(line, 'reports')).toBe(1);
  expect(await countOf(line, 'texts_in')).toBe(1);
});

test('texts of many phones at once are each answered from their own world', async () => {
  const { line, url } = await started();
  const phones = [ANN, BEN, CYN_AND_DAN, STRANGER];
  const answers = await Promise.all(
    Array.from({ length: 40 }, (_, i) => text(url, `SM${i}`, phones[i % 4] ?? ANN, 'hello')),
  );
  const plots = answers.map((answer) => Number(/plots (\d)/.exec(answer.text ?? '')?.[1]));
  expect(plots).toEqual(Array.from({ length: 40 }, (_, i) => [2, 1, 2, 0][i % 4]));
  const counts = answers
    .filter((_, i) => i % 4 === 0)
    .map((answer) => Number(/heard (\d+)/.exec(answer.text ?? '')?.[1]));
  expect(counts.sort((a, b) => a - b)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
  expect(await countOf(line, 'texts_in')).toBe(40);
});

test.each([
  ['empty', ''],
  ['blank', ' \n\t '],
  ['emoji only', '🌾🌾🌾'],
  ['right to left', 'حرثت القطعة ١ أمس'],
  ['SQL', "'; drop table reports; --"],
  ['HTML', '<script>alert("x")</script> & </Message></Response>'],
  ['CDATA', ']]> <![CDATA[ x ]]>'],
  ['controls', 'a\u0001b\u001b[31mc\u0085d\ufffe'],
  ['NUL', 'plou\0ghed'],
  ['ten kilobytes', 'plough '.repeat(1500)],
  ['1600 emoji', '🌾'.repeat(1600)],
])('%s: answered in well-formed XML, kept, and the line goes on', async (_name, body) => {
  const { line, url } = await started();
  const answer = await text(url, 'SM1', ANN, body);
  expect(answer.status).toBe(200);
  expect(answer.body).not.toMatch(/[^\t\n\r\P{Cc}\u0085]|\ufffe|\uffff/u);
  expect(answer.body).toMatch(
    /^<\?xml version="1.0" encoding="UTF-8"\?><Response><Message>(?:[^<>&]|&(?:amp|lt|gt|quot|apos|#x[0-9A-F]+);)*<\/Message><\/Response>$/,
  );
  const [kept] = await line.db.selectFrom('texts_in').selectAll().execute();
  expect(kept?.body).toBe(body.replaceAll('\0', ''));
  expect((await text(url, 'SM2', ANN, 'ploughed 1')).text).toContain('ploughed 1');
});

test('bytes that are no UTF-8 are answered too', async () => {
  const { url } = await started();
  const head = `MessageSid=SM1&From=%2B447700900001&To=%2B447700900999&Body=`;
  const headers = { 'content-type': 'application/x-www-form-urlencoded' };
  const bytes = Buffer.concat([Buffer.from(head), Buffer.from([0xff, 0xfe, 0x80, 0x81, 0xc3])]);
  const raw = await fetch(`${url}/sms`, { method: 'POST', body: bytes, headers });
  expect(raw.status).toBe(200);
  const percent = await fetch(`${url}/sms`, {
    method: 'POST',
    body: `${head.replace('SM1', 'SM2')}%FF%FE%ED%A0%80`,
    headers,
  });
  expect(percent.status).toBe(200);
});

test.each(['MessageSid', 'From', 'To', 'Body'])('without %s: a short 400, nothing kept', async (name) => {
  const { line, url } = await started();
  const { [name]: _left, ...form } = smsForm('SM1', ANN, 'ploughed 1');
  const answer = await postForm(url, form);
  expect(answer.status).toBe(400);
  expect(answer.body).toBe(`Missing or repeated: ${name}.\n`);
  expect(await countOf(line, 'texts_in')).toBe(0);
});

test.each([
  ['short code', '12345'],
  ['name', 'BANKINFO'],
  ['other channel', 'whatsapp:+447700900001'],
  ['nothing like a number', '----'],
])('a sender that cannot be answered (%s) gets an empty Response and is not kept', async (_name, from) => {
  const { line, url } = await started();
  const answer = await text(url, 'SM1', from, 'ploughed 1');
  expect(answer).toMatchObject({ status: 200, text: null });
  expect(answer.body).toContain('<Response/>');
  expect(await countOf(line, 'texts_in')).toBe(0);
});

test.each([
  '07700 900001',
  '447700900001',
  '00447700900001',
  '+44 7700 900001',
  ' 447700900001',
  '+৪৪৭৭০০৯০০০০১',
])('the number written %j is the same phone', async (from) => {
  const { url } = await started();
  expect((await text(url, 'SM1', from, 'hello')).text).toContain('plots 2');
});

test('a fault of the conversation: a short sorry, the text kept, nothing half recorded, no number in the log', async () => {
  const { line, url } = await started();
  const [before, faulty, beside] = await Promise.all([
    text(url, 'SM1', ANN, 'ploughed 1'),
    text(url, 'SM2', ANN, 'boom'),
    text(url, 'SM3', BEN, 'ploughed 1'),
  ]);
  expect(before.text).toContain('ploughed 1');
  expect(beside.text).toContain('ploughed 1');
  expect(faulty).toMatchObject({ status: 200 });
  expect(faulty.text).toBe('fault.ours');
  expect(await countOf(line, 'reports')).toBe(2);
  const kept = await line.db
    .selectFrom('texts_in')
    .selectAll()
    .where('carrier_id', '=', `SM2 ${ANN}`)
    .execute();
  expect(kept).toMatchObject([{ body: 'boom', answer: faulty.text, faulty: 1 }]);
  expect(await text(url, 'SM2', ANN, 'boom')).toEqual(faulty);
  expect(line.log.lines.join('\n')).toContain('a text could not be answered');
  expect(line.log.lines.join('\n')).not.toMatch(/7700900|boom/);
});

test('what the carrier answered itself is done in silence, once', async () => {
  const { line, url } = await started();
  const stop = { ...smsForm('SM1', ANN, 'STOP'), OptOutType: 'STOP' };
  expect((await postForm(url, stop)).body).toContain('<Response/>');
  expect((await postForm(url, stop)).body).toContain('<Response/>');
  const phone = () =>
    line.db.selectFrom('phones').select('stopped').where('number', '=', ANN).executeTakeFirst();
  expect(await phone()).toEqual({ stopped: 1 });
  const consents = await line.db.selectFrom('consents').selectAll().execute();
  expect(consents).toMatchObject([{ phone: ANN, kind: 'stopped', words: 'STOP' }]);
  expect((await postForm(url, { ...smsForm('SM2', ANN, 'HELP'), OptOutType: 'HELP' })).text).toBeNull();
  expect(await phone()).toEqual({ stopped: 1 });
  expect((await postForm(url, { ...smsForm('SM3', ANN, 'START'), OptOutType: 'START' })).text).toBeNull();
  expect(await phone()).toEqual({ stopped: 0 });
});

test('too long, not a form, wrong method, wrong place: short texts, no trace of the inside', async () => {
  const { url } = await started();
  const answers = [
    await fetch(`${url}/sms`, { method: 'POST', body: new URLSearchParams({ Body: 'x'.repeat(40_000) }) }),
    await fetch(`${url}/sms`, {
      method: 'POST',
      body: new URLSearchParams(Array.from({ length: 200 }, (_, i): [string, string] => [`f${i}`, ''])),
    }),
    await fetch(`${url}/sms`, {
      method: 'POST',
      body: '{"a":1}',
      headers: { 'content-type': 'application/json' },
    }),
    await fetch(`${url}/sms`),
    await fetch(`${url}/%ff`),
  ];
  expect(answers.map((answer) => answer.status)).toEqual([413, 413, 400, 404, 404]);
  for (const answer of answers) {
    const body = await answer.text();
    expect(body.length).toBeLessThan(80);
    expect(body).not.toMatch(/at |node_modules|Error/);
  }
});

test('health asks the database', async () => {
  const { line, url } = await started();
  expect((await fetch(`${url}/healthz`)).status).toBe(200);
  await line.close();
  const ill = await fetch(`${url}/healthz`);
  expect(ill.status).toBe(503);
  expect(await ill.text()).not.toMatch(/at |Error/);
});

test('when the database is gone no text is acknowledged', async () => {
  const { line, url } = await started();
  await line.close();
  const answer = await text(url, 'SM1', ANN, 'ploughed 1');
  expect(answer).toMatchObject({ status: 503, text: null });
});
