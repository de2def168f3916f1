import { expect, onTestFinished, test } from 'vitest';
import { readVoices } from '../../src/sweeps/read-voices.ts';
import { realTalk } from '../../src/sweeps/real-talk.ts';
import { signForm } from '../../src/web/signature.ts';
import { testLine } from '../support/test-line.ts';
import { ANN, BEN, VALLEY } from '../support/valley-scheme.ts';
import { answerOf, postForm, smsForm, startWeb, text } from '../support/webhook.ts';

const FRENCH = VALLEY.replace('languages: [en]', 'languages: [en, fr]').replace(
  'name: Ann, lang: en',
  'name: Ann, lang: fr',
);

test('JSON is read like a form, numbers too; what is no text is missing', async () => {
  const line = await testLine(onTestFinished);
  const { url } = await startWeb(line, onTestFinished);
  const post = async (body: object | string) => {
    const headers = { 'content-type': 'application/json' };
    const sent = typeof body === 'string' ? body : JSON.stringify(body);
    return answerOf(await fetch(`${url}/sms`, { method: 'POST', headers, body: sent }));
  };
  const answer = await post({ ...smsForm('SM1', ANN, 'ploughed 1'), NumSegments: 3 });
  expect(answer).toMatchObject({ status: 200, text: 'ploughed 1 (0 before, text 1)' });
  const [kept] = await line.db.selectFrom('texts_in').selectAll().execute();
  expect(kept).toMatchObject({ carrier_id: `SM1 ${ANN}`, carrier_parts: 3 });
  expect(await post({ ...smsForm('SM2', ANN, 'x'), Body: ['x'] })).toMatchObject({
    status: 400,
    body: 'Missing or repeated: Body.\n',
  });
  expect((await post('{"MessageSid":')).status).toBe(400);
  expect((await post('[1]')).status).toBe(400);
  expect((await post({ Body: 'x'.repeat(40_000) })).status).toBe(413);
});

test('a GET request is taken when it is signed, and is nothing where nobody signs', async () => {
  const line = await testLine(onTestFinished);
  const search = new URLSearchParams(smsForm('SM1', ANN, 'ploughed 1')).toString();
  const open = await startWeb(line, onTestFinished);
  expect((await fetch(`${open.url}/sms?${search}`)).status).toBe(404);
  const signing = { token: 'secret', publicUrl: 'https://line.example.org/' };
  const { url } = await startWeb(line, onTestFinished, signing);
  expect((await fetch(`${url}/sms?${search}`)).status).toBe(403);
  expect(await line.db.selectFrom('texts_in').select('id').execute()).toEqual([]);
  const signature = signForm('secret', `https://line.example.org/sms?${search}`, {});
  const response = await fetch(`${url}/sms?${search}`, { headers: { 'X-Twilio-Signature': signature } });
  expect(await answerOf(response)).toMatchObject({ status: 200, text: 'ploughed 1 (0 before, text 1)' });
});

test('a request that comes again with another id is known by its mark; another phone’s mark is not', async () => {
  const line = await testLine(onTestFinished);
  const { url } = await startWeb(line, onTestFinished);
  const send = (id: string, from: string, mark: string) =>
    postForm(url, smsForm(id, from, 'ploughed 1'), { 'I-Twilio-Idempotency-Token': mark });
  const first = await send('SM1', ANN, 'm1');
  expect(await send('SM2', ANN, 'm1')).toEqual(first);
  expect((await send('SM3', BEN, 'm1')).text).toBe('ploughed 1 (0 before, text 1)');
  expect((await send('SM4', ANN, 'm2')).text).toContain('text 2');
  expect((await text(url, 'SM5', ANN, 'ploughed 1')).text).toContain('text 3');
  expect((await text(url, 'SM6', ANN, 'ploughed 1')).text).toContain('text 4');
  expect(await line.db.selectFrom('reports').select('id').execute()).toHaveLength(5);
});

test('a picture without words is answered in the phone’s language and leaves what was asked; with words they are heard', async () => {
  const line = await testLine(onTestFinished, { schemeText: FRENCH, voices: readVoices(), talk: realTalk });
  const { url } = await startWeb(line, onTestFinished);
  const picture = (id: string, from: string, body: string) =>
    postForm(url, { ...smsForm(id, from, body), NumMedia: '2' });
  await text(url, 'SM0', ANN, 'labouré');
  const phone = () =>
    line.db
      .selectFrom('phones')
      .select(['talk_state', 'talk_expires_ms'])
      .where('number', '=', ANN)
      .executeTakeFirst();
  const asked = async () => {
    const { row: _, ...state } = JSON.parse((await phone())?.talk_state ?? '') as Record<string, unknown>;
    return { state, expiresMs: (await phone())?.talk_expires_ms };
  };
  const before = await asked();
  expect(before.state).toMatchObject({ standing: { at: 'which-plot' } });
  expect((await picture('SM1', ANN, ' \n')).text).toBe(
    "Les images ne sont pas lues ici. Envoyez des mots. MENU montre ce qu'on peut envoyer.",
  );
  expect((await picture('SM2', BEN, '')).text).toBe(
    'We cannot read pictures. Please text in words. MENU lists what you can text.',
  );
  expect(await asked()).toEqual(before);
  await picture('SM3', BEN, 'ploughed 1');
  expect(await line.db.selectFrom('reports').select('phone').execute()).toEqual([{ phone: BEN }]);
  await text(url, 'SM4', BEN, 'stop');
  expect((await picture('SM5', BEN, '')).text).toBeNull();
});
