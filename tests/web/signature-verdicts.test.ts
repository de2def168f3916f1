/** Requests of every kind, honest and tampered with: the reference package and the line agree on each. */
import { createHash } from 'node:crypto';
import fc from 'fast-check';
import twilio from 'twilio';
import { expect, onTestFinished, test } from 'vitest';
import { isSignedBody, isSignedForm, signForm } from '../../src/web/signature.ts';
import { testLine } from '../support/test-line.ts';
import { ANN } from '../support/valley-scheme.ts';
import { smsForm, startWeb } from '../support/webhook.ts';

const RUNS = 2000;
const words = fc.string({ unit: 'grapheme', maxLength: 40 });
const token = fc.string({ minLength: 1, maxLength: 32 });
const form = fc.dictionary(
  fc.string({ minLength: 1, maxLength: 12 }).filter((name) => name !== '__proto__'),
  fc.oneof(words, fc.array(words, { minLength: 1, maxLength: 3 })),
  { maxKeys: 8 },
);
const query = fc.dictionary(fc.string({ minLength: 1, maxLength: 8 }), words, { maxKeys: 6 });
const address = fc
  .tuple(fc.constantFrom('https', 'http'), fc.domain(), fc.constantFrom('/sms', '/sms/status', '/a/b'))
  .map(([scheme, host, path]) => `${scheme}://${host}${path}`);
const spoiling = fc.constantFrom('nothing', 'nothing', 'token', 'signature', 'address', 'content', 'empty');

const withQuery = (url: string, fields: Readonly<Record<string, string>>) => {
  const search = new URLSearchParams(Object.entries(fields)).toString();
  return search === '' ? url : `${url}?${search}`;
};
const spoiled = (signature: string, how: string) =>
  how === 'empty' ? '' : how === 'signature' ? `${signature.slice(0, -2)}A=` : signature;

/** How often each verdict came: a test in which all are alike shows nothing. */
function tally() {
  const counts = { yes: 0, no: 0 };
  return { counts, count: (verdict: boolean) => (counts[verdict ? 'yes' : 'no'] += 1) };
}

test('forms', () => {
  const { counts, count } = tally();
  fc.assert(
    fc.property(token, address, form, spoiling, (secret, url, fields, how) => {
      const signature = spoiled(signForm(how === 'token' ? `${secret}x` : secret, url, fields), how);
      const [at, sent] = [
        how === 'address' ? `${url}x` : url,
        how === 'content' ? { ...fields, Body: 'other' } : fields,
      ];
      const verdict = isSignedForm(secret, signature, at, sent);
      expect(verdict).toBe(twilio.validateRequest(secret, signature, at, sent as Record<string, unknown>));
      count(verdict);
    }),
    { numRuns: RUNS },
  );
  expect(Math.min(counts.yes, counts.no)).toBeGreaterThan(RUNS / 10);
});

test('GET requests', () => {
  const { counts, count } = tally();
  fc.assert(
    fc.property(token, address, query, spoiling, (secret, path, fields, how) => {
      const url = withQuery(path, fields);
      const signature = spoiled(signForm(how === 'token' ? `${secret}x` : secret, url, {}), how);
      const at =
        how === 'address'
          ? `${url}x`
          : how === 'content'
            ? withQuery(path, { ...fields, Body: 'other!' })
            : url;
      const verdict = isSignedForm(secret, signature, at, {});
      expect(verdict).toBe(twilio.validateRequest(secret, signature, at, {}));
      count(verdict);
    }),
    { numRuns: RUNS },
  );
  expect(Math.min(counts.yes, counts.no)).toBeGreaterThan(RUNS / 10);
});

test('JSON requests, also with a digest that is missing, in capitals or of another body', () => {
  const { counts, count } = tally();
  const digests = fc.constantFrom('right', 'right', 'right', 'capitals', 'missing', 'other');
  fc.assert(
    fc.property(token, address, fc.json(), spoiling, digests, (secret, path, body, how, which) => {
      const right = createHash('sha256').update(body, 'utf8').digest('hex');
      const digest = { right, capitals: right.toUpperCase(), other: right.replace(/^./, 'g'), missing: null }[
        which
      ];
      const url = digest === null ? path : `${path}?bodySHA256=${digest}`;
      const signature = spoiled(signForm(how === 'token' ? `${secret}x` : secret, url, {}), how);
      const [at, sent] = [how === 'address' ? `${url}&x=1` : url, how === 'content' ? `${body} ` : body];
      const verdict = isSignedBody(secret, signature, at, Buffer.from(sent));
      expect(verdict).toBe(twilio.validateRequestWithBody(secret, signature, at, sent));
      count(verdict);
    }),
    { numRuns: RUNS },
  );
  expect(Math.min(counts.yes, counts.no)).toBeGreaterThan(RUNS / 20);
});

test('over HTTP the line answers what the package calls signed, and refuses the rest', async () => {
  const signing = { token: 'secret', publicUrl: 'https://line.example.org' };
  const line = await testLine(onTestFinished);
  const { url } = await startWeb(line, onTestFinished, signing);
  const kinds = fc.constantFrom('form', 'json', 'get');
  let [index, taken] = [0, 0];
  await fc.assert(
    fc.asyncProperty(kinds, words, spoiling, async (kind, body, how) => {
      index += 1;
      const fields = smsForm(`SM${index}`, ANN, `x${body}`);
      const json = JSON.stringify(fields);
      const digest = createHash('sha256').update(json).digest('hex');
      const path = { form: '/sms', json: `/sms?bodySHA256=${digest}`, get: withQuery('/sms', fields) }[kind];
      const at = signing.publicUrl + path;
      const signed = kind === 'form' ? fields : {};
      const signature = spoiled(signForm(how === 'token' ? 'other' : signing.token, at, signed), how);
      const [sentPath, sentJson] = [
        how === 'address' ? `${path}${path.includes('?') ? '&' : '?'}x=1` : path,
        how === 'content' ? `${json} ` : json,
      ];
      const sentForm = how === 'content' ? { ...fields, Body: 'other' } : fields;
      const headers = { 'X-Twilio-Signature': signature };
      const response = await fetch(url + sentPath, {
        method: kind === 'get' ? 'GET' : 'POST',
        headers: kind === 'json' ? { ...headers, 'content-type': 'application/json' } : headers,
        ...(kind === 'json' && { body: sentJson }),
        ...(kind === 'form' && { body: new URLSearchParams(sentForm) }),
      });
      const sentTo = signing.publicUrl + sentPath;
      const verdict =
        kind === 'json'
          ? twilio.validateRequestWithBody(signing.token, signature, sentTo, sentJson)
          : twilio.validateRequest(signing.token, signature, sentTo, kind === 'form' ? sentForm : {});
      expect(response.status).toBe(verdict ? 200 : 403);
      await response.text();
      taken += verdict ? 1 : 0;
    }),
    { numRuns: 150 },
  );
  const kept = await line.db.selectFrom('texts_in').select('id').execute();
  expect(kept).toHaveLength(taken);
  expect(taken).toBeGreaterThan(20);
});
