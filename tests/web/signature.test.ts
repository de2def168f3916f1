import { createHash } from 'node:crypto';
import fc from 'fast-check';
import twilio from 'twilio';
import { describe, expect, onTestFinished, test } from 'vitest';
import { receiptUrl } from '../../src/web/create-app.ts';
import type { Form } from '../../src/web/form.ts';
import { isSignedBody, isSignedForm, signForm } from '../../src/web/signature.ts';
import { testLine } from '../support/test-line.ts';
import { ANN } from '../support/valley-scheme.ts';
import { postForm, smsForm, startWeb, text } from '../support/webhook.ts';

const CALL = {
  CallSid: 'CA1234567890ABCDE',
  Caller: '+14158675309',
  Digits: '1234',
  From: '+14158675309',
  To: '+18005551212',
};

/** Published with the scheme of signing: token 12345. */
const PUBLISHED = [
  ['https://mycompany.com/myapp.php?foo=1&bar=2', 'RSOYDt4T1cUTdK1PDd93/VVr8B8='],
  ['https://mycompany.com:443/myapp.php?foo=1&bar=2', 'kvajT1Ptam85bY51eRf/AJRuM3w='],
  ['http://mycompany.com:1234/myapp.php?foo=1&bar=2', 'Zmvh+3yNM1Phv2jhDCwEM3q5ebU='],
] as const;

test.each(PUBLISHED)('published: %s', (url, signature) => {
  expect(signForm('12345', url, CALL)).toBe(signature);
  expect(isSignedForm('12345', signature, url, CALL)).toBe(true);
});

test('a standard port may be written or left out on either side; another port may not', () => {
  const [bare, written, other] = PUBLISHED.map(([url]) => url);
  const [bareSignature, writtenSignature, otherSignature] = PUBLISHED.map(([, signature]) => signature);
  expect(isSignedForm('12345', writtenSignature ?? '', bare ?? '', CALL)).toBe(true);
  expect(isSignedForm('12345', bareSignature ?? '', written ?? '', CALL)).toBe(true);
  expect(
    isSignedForm('12345', otherSignature ?? '', 'http://mycompany.com/myapp.php?foo=1&bar=2', CALL),
  ).toBe(false);
  expect(isSignedForm('12345', bareSignature ?? '', other ?? '', CALL)).toBe(false);
});

const forms: fc.Arbitrary<Form> = fc.dictionary(
  fc.string({ unit: 'grapheme', minLength: 1 }).filter((name) => name !== '__proto__'),
  fc.oneof(fc.string({ unit: 'grapheme' }), fc.array(fc.string(), { minLength: 1, maxLength: 4 })),
);
const urls = fc
  .record({
    scheme: fc.constantFrom('http', 'https'),
    host: fc.domain(),
    port: fc.constantFrom('', ':443', ':80', ':8443'),
    path: fc.webPath(),
    query: fc.constantFrom('', '?a=1&b=2', '?a=%20%C3%A9'),
  })
  .map(({ scheme, host, port, path, query }) => `${scheme}://${host}${port}${path || '/'}${query}`);

test('the reference package signs alike and gives the same verdicts', () => {
  fc.assert(
    fc.property(fc.string({ minLength: 1 }), urls, forms, fc.boolean(), (token, url, form, spoil) => {
      const signature = twilio.getExpectedTwilioSignature(token, url, form);
      expect(signForm(token, url, form)).toBe(signature);
      const given = spoil ? `A${signature.slice(1)}` : signature;
      const verdict = twilio.validateRequest(token, given, url, form as Record<string, unknown>);
      expect(isSignedForm(token, given, url, form)).toBe(verdict);
    }),
    { numRuns: 500 },
  );
});

test('one changed value, name or letter of the address spoils the signature', () => {
  fc.assert(
    fc.property(urls, forms, fc.string({ minLength: 1 }), (url, form, extra) => {
      const signature = signForm('secret', url, form);
      expect(isSignedForm('secret', signature, url, { ...form, [`~${extra}`]: 'x' })).toBe(false);
      expect(isSignedForm('secret', signature, `${url}x`, form)).toBe(false);
      expect(isSignedForm('other', signature, url, form)).toBe(false);
    }),
  );
});

test('a JSON body is signed through its digest in the address', () => {
  const body = '{"a":"é"}';
  const digest = createHash('sha256').update(body).digest('hex');
  const url = `https://line.example.org/hook?bodySHA256=${digest}`;
  const signature = twilio.getExpectedTwilioSignature('t', url, {});
  expect(twilio.validateRequestWithBody('t', signature, url, body)).toBe(true);
  expect(isSignedBody('t', signature, url, body)).toBe(true);
  expect(isSignedBody('t', signature, url, `${body} `)).toBe(false);
  expect(isSignedBody('t', `A${signature.slice(1)}`, url, body)).toBe(false);
});

/** What a proxy that takes off "/bundline" hands on: the address that was signed has it, the request has not. */
describe.each([
  ['https://line.example.org/bundline', 'https://line.example.org/bundline'],
  ['https://line.example.org/bundline/', 'https://line.example.org:443/bundline'],
  ['https://line.example.org:443/bundline', 'https://line.example.org/bundline'],
  ['http://line.example.org/a/b', 'http://line.example.org:80/a/b'],
])('a public address with a path, %s, of which the carrier calls %s', (publicUrl, called) => {
  const started = async () => {
    const line = await testLine(onTestFinished);
    return startWeb(line, onTestFinished, { token: 'secret', publicUrl });
  };

  test('a form, a query, JSON and a receipt are signed for the address with its path', async () => {
    const { url } = await started();
    const signed = (address: string, form: Form) => ({
      'X-Twilio-Signature': twilio.getExpectedTwilioSignature(
        'secret',
        address,
        form as Record<string, unknown>,
      ),
    });
    const form = smsForm('SM1', ANN, 'ploughed 1');
    expect((await postForm(url, form, signed(`${called}/sms`, form))).status).toBe(200);
    const query = `/sms?${new URLSearchParams(smsForm('SM2', ANN, 'ploughed 1'))}`;
    expect((await fetch(url + query, { headers: signed(called + query, {}) })).status).toBe(200);
    const body = JSON.stringify(smsForm('SM3', ANN, 'ploughed 1'));
    const path = `/sms?bodySHA256=${createHash('sha256').update(body).digest('hex')}`;
    const headers = { 'content-type': 'application/json', ...signed(called + path, {}) };
    expect((await fetch(url + path, { method: 'POST', body, headers })).status).toBe(200);
    const receipt = { MessageSid: 'SM4', MessageStatus: 'sent' };
    const at = { method: 'POST', body: new URLSearchParams(receipt) };
    const good = await fetch(`${url}/sms/status?text=x`, {
      ...at,
      headers: signed(`${receiptUrl(publicUrl)}?text=x`, receipt),
    });
    expect(good.status).toBe(204);
  });

  test('what is signed without the path, or with another, is refused', async () => {
    const { url } = await started();
    const form = smsForm('SM1', ANN, 'ploughed 1');
    for (const other of [new URL(called).origin, `${called}x`, `${called}/sms`]) {
      const signature = signForm('secret', `${other}/sms`, form);
      expect((await postForm(url, form, { 'X-Twilio-Signature': signature })).status, other).toBe(403);
    }
  });
});

test('receipts come to the public address with its path', () => {
  expect(receiptUrl('https://line.example.org/bundline/')).toBe(
    'https://line.example.org/bundline/sms/status',
  );
  expect(receiptUrl('https://line.example.org:443')).toBe('https://line.example.org:443/sms/status');
});

test('over HTTP: unsigned and wrongly signed are refused and leave nothing, signed is answered', async () => {
  const line = await testLine(onTestFinished);
  const signing = { token: 'secret', publicUrl: 'https://line.example.org' };
  const { url } = await startWeb(line, onTestFinished, signing);
  const form = smsForm('SM1', ANN, 'ploughed 1');
  const signature = signForm('secret', 'https://line.example.org/sms', form);
  expect((await text(url, 'SM1', ANN, 'ploughed 1')).status).toBe(403);
  expect((await postForm(url, form, { 'X-Twilio-Signature': `A${signature.slice(1)}` })).status).toBe(403);
  const forged = { ...form, From: '+447700900002' };
  expect((await postForm(url, forged, { 'X-Twilio-Signature': signature })).status).toBe(403);
  expect(await line.db.selectFrom('texts_in').selectAll().execute()).toEqual([]);
  const answer = await postForm(url, form, { 'X-Twilio-Signature': signature });
  expect(answer).toMatchObject({ status: 200, text: 'ploughed 1 (0 before, text 1)' });
});
