import { expect, onTestFinished, test } from 'vitest';
import { listTextsIn } from '../../src/carriers/rest-list.ts';
import { fakeRestList, listedText } from '../support/fake-rest-list.ts';

/** The id of a messaging service. */
const SERVICE = `MG${'0a'.repeat(16)}`;

const SINCE_MS = Date.parse('2027-03-08T22:00:00Z');

test('all pages are read, oldest first, with the login, our number and the day', async () => {
  const texts = Array.from({ length: 7 }, (_, i) =>
    listedText(`SM${i}`, Date.parse('2027-03-10T09:00:00Z') - i * 1000),
  );
  const { account, asked } = await fakeRestList(onTestFinished, { texts, pageSize: 3 });
  const listing = await listTextsIn(account, SINCE_MS);
  expect(listing).toMatchObject({ kind: 'listed' });
  const sids = listing.kind === 'listed' ? listing.texts.map(({ sid }) => sid) : [];
  expect(sids).toEqual(['SM6', 'SM5', 'SM4', 'SM3', 'SM2', 'SM1', 'SM0']);
  expect(asked).toHaveLength(3);
  const first = new URL(asked[0] ?? '', account.baseUrl).searchParams;
  expect([first.get('To'), first.get('DateSent>'), Number(first.get('PageSize')) > 0]).toEqual([
    account.from,
    '2027-03-08',
    true,
  ]);
});

test('texts out, and what cannot be read, are left out', async () => {
  const good = listedText('SM1', SINCE_MS, { num_segments: '2' });
  const texts = [
    listedText('SM2', SINCE_MS, { direction: 'outbound-api' }),
    { sid: 'SM3' },
    null,
    listedText('SM4', SINCE_MS, { date_sent: 'soon', date_created: 'soon' }),
    listedText('SM5', SINCE_MS, { date_sent: null, date_created: 'Mon, 08 Mar 2027 22:00:00 +0000' }),
    good,
  ];
  const { account } = await fakeRestList(onTestFinished, { texts });
  const listing = await listTextsIn(account, SINCE_MS);
  const read = listing.kind === 'listed' ? listing.texts : [];
  expect(read.map(({ sid }) => sid).sort()).toEqual(['SM1', 'SM5']);
  expect(read.find(({ sid }) => sid === 'SM1')).toMatchObject({ parts: 2, sentMs: SINCE_MS, text: 'hello' });
  expect(read.find(({ sid }) => sid === 'SM5')).toMatchObject({ parts: 1, sentMs: SINCE_MS });
});

test('of a messaging service only its own texts are taken', async () => {
  const texts = [
    listedText('SM1', SINCE_MS, { messaging_service_sid: SERVICE }),
    listedText('SM2', SINCE_MS, { messaging_service_sid: 'MG2' }),
  ];
  const { account, asked } = await fakeRestList(onTestFinished, { texts });
  const listing = await listTextsIn({ ...account, from: SERVICE }, SINCE_MS);
  expect(listing.kind === 'listed' && listing.texts.map(({ sid }) => sid)).toEqual(['SM1']);
  expect(asked[0]).not.toContain('To=');
});

test('a wrong login, a list in a circle, a page elsewhere and no connection are told apart', async () => {
  const texts = [listedText('SM1', SINCE_MS)];
  const { account } = await fakeRestList(onTestFinished, { texts });
  expect(await listTextsIn({ ...account, token: 'wrong' }, SINCE_MS)).toEqual({
    kind: 'failed',
    why: 'HTTP 401',
  });
  const circle = await fakeRestList(onTestFinished, { texts, next: (url) => url });
  expect(await listTextsIn(circle.account, SINCE_MS)).toEqual({ kind: 'failed', why: 'the list has no end' });
  const other = await fakeRestList(onTestFinished, { texts });
  const away = await fakeRestList(onTestFinished, {
    texts,
    next: () => `${other.account.baseUrl}/2010-04-01/x`,
  });
  expect(await listTextsIn(away.account, SINCE_MS)).toMatchObject({ kind: 'listed' });
  expect(other.asked).toEqual([]);
  const shut = { ...account, baseUrl: 'http://127.0.0.1:9' };
  expect(
    await listTextsIn(shut, SINCE_MS, () =>
      Promise.reject(Object.assign(new Error(), { code: 'ECONNREFUSED' })),
    ),
  ).toEqual({
    kind: 'failed',
    why: 'ECONNREFUSED',
  });
});
