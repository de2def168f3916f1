import { request } from 'node:http';
import { describe, expect, onTestFinished, test } from 'vitest';
import type { UssdShape } from '../../../src/web/ussd/shape.ts';
import { TWICE_MS } from '../../../src/web/ussd/way.ts';
import { hit, reportsOn, screensOn } from '../../support/ussd.ts';
import { BEN } from '../../support/valley-scheme.ts';

const LATEST: Partial<UssdShape> = {
  inputs: 'latest',
  fields: { phone: 'msisdn', session: 'sid', input: 'input', hit: null },
  code: '*384*77',
  answer: { as: 'text', goOn: 'C;', end: 'E;' },
};

describe('the newest input alone', () => {
  const opened = async () => {
    const { line, url } = await screensOn(onTestFinished, LATEST);
    const send = (input: string, later = TWICE_MS) => {
      line.clock.set(line.clock.nowMs() + later);
      return hit(url, { msisdn: BEN, sid: 'S1', input });
    };
    return { line, send };
  };

  test('the dialled code is no key, and what is dialled behind it is', async () => {
    const { send } = await opened();
    expect(await send('*384*77#')).toMatch(/^C;1 Report work/);
    const other = await opened();
    expect(await other.send('*384*77*1*1#')).toMatch(/^C;Plot 1: clearing/);
  });

  test('a whole survey: the same depth twice is two depths', async () => {
    const { line, send } = await opened();
    await send('');
    await send('4');
    for (const depth of ['5', '5', '4', '5', '5']) await send(depth);
    expect(await send('')).toBe('C;Plot 1: 5 5 4 5 5 cm.\n1 Record it\n0 Back');
    await send('1');
    expect(await reportsOn(line)).toEqual(['level 2027-03-10']);
  });

  test('a hit that comes again after a time-out of the carrier confirms nothing', async () => {
    for (const pauseMs of [3_200, 12_000, 15_000, 60_000]) {
      const { line, send } = await opened();
      for (const key of ['', '1', '1']) await send(key);
      expect(await send('1')).toBe('C;Plot 1 cleared Wed 10 Mar.\n2 Record it\n0 Back');
      expect(await send('1', pauseMs)).toMatch(/^C;Not on the list\.\nPlot 1 cleared/);
      expect(await reportsOn(line)).toEqual([]);
      await send('2');
      await send('2', pauseMs);
      expect(await reportsOn(line)).toEqual(['clear 2027-03-10']);
    }
  });

  test('the same hit at once again is the same hit', async () => {
    const { line, send } = await opened();
    for (const key of ['', '1', '1', '2']) await send(key);
    const first = await send('1');
    expect(await send('1', 10)).toBe(first);
    expect(await reportsOn(line)).toEqual(['clear 2027-03-09']);
    await send('0');
    await send('4');
    expect(await send('5')).toMatch(/^C;Spot 2/);
    expect(await send('5', 10)).toMatch(/^C;Spot 2/);
  });

  test('0 ends with the other word', async () => {
    const { send } = await opened();
    await send('');
    expect(await send('0')).toBe('E;Goodbye.');
  });
});

const JSON_SHAPE: Partial<UssdShape> = {
  inputs: 'latest',
  body: 'json',
  fields: { phone: 'from', session: 'session', input: 'keys', hit: 'step' },
  answer: { as: 'json', text: 'show', state: 'after', goOn: 'wait', end: 'close' },
};

describe('JSON', () => {
  test('a hit is known by its own id, at whatever time it comes again', async () => {
    const { line, url } = await screensOn(onTestFinished, JSON_SHAPE);
    const send = async (keys: string, step: number) => {
      const body = JSON.stringify({ from: BEN.slice(1), session: 12345, keys, step });
      const answer = await fetch(url, {
        method: 'POST',
        body,
        headers: { 'content-type': 'application/json' },
      });
      return (await answer.json()) as unknown;
    };
    await send('', 1);
    await send('1', 2);
    await send('1', 3);
    expect(await send('2', 4)).toEqual({
      show: 'Plot 1 cleared Tue 9 Mar.\n1 Record it\n0 Back',
      after: 'wait',
    });
    const recorded = await send('1', 5);
    line.clock.set(line.clock.nowMs() + 20_000);
    expect(await send('1', 5)).toEqual(recorded);
    expect(await reportsOn(line)).toEqual(['clear 2027-03-09']);
    await send('0', 6);
    expect(await send('0', 7)).toEqual({ show: 'Goodbye.', after: 'close' });
  });

  test('what is no JSON is refused', async () => {
    const { url } = await screensOn(onTestFinished, JSON_SHAPE);
    const headers = { 'content-type': 'application/json' };
    expect((await fetch(url, { method: 'POST', body: '{', headers })).status).toBe(400);
  });

  test('a body of another kind is refused by the kind that is expected, not by a field', async () => {
    const { line, url } = await screensOn(onTestFinished, JSON_SHAPE);
    const body = JSON.stringify({ from: BEN.slice(1), session: 1, keys: '', step: 1 });
    const forms = [body, new URLSearchParams({ from: BEN }), new Blob([body])];
    for (const sent of forms) {
      const answer = await fetch(url, { method: 'POST', body: sent });
      expect(answer.status).toBe(415);
      expect(await answer.text()).toBe('The request must have the content type application/json.\n');
    }
    expect(await line.db.selectFrom('ussd_sessions').selectAll().execute()).toEqual([]);
  });
});

test('where a form is expected, JSON is refused by that', async () => {
  const { url } = await screensOn(onTestFinished);
  const body = JSON.stringify({ sessionId: 'S1', phoneNumber: BEN, text: '' });
  const answer = await fetch(url, { method: 'POST', body, headers: { 'content-type': 'application/json' } });
  expect(await answer.text()).toContain('the content type application/x-www-form-urlencoded.');
  const form = 'application/x-www-form-urlencoded; charset=UTF-8';
  const good = { method: 'POST', body: `phoneNumber=${BEN.slice(1)}`, headers: { 'content-type': form } };
  expect(await (await fetch(url, good)).text()).toMatch(/^CON /);
});

test('a GET has its fields in the query', async () => {
  const { url } = await screensOn(onTestFinished);
  const query = new URLSearchParams({ sessionId: 'S1', phoneNumber: BEN, text: '1*1' });
  expect(await (await fetch(`${url}?${query}`)).text()).toMatch(/^CON Plot 1: clearing/);
});

test.each(['nobody', '', '12345'])('a hit from "%s" is refused', async (phoneNumber) => {
  const { url } = await screensOn(onTestFinished);
  const body = new URLSearchParams({ phoneNumber, sessionId: 'S1', text: '' });
  const answer = await fetch(url, { method: 'POST', body });
  expect(answer.status).toBe(400);
  expect(await answer.text()).toBe('Missing or not readable: phoneNumber.\n');
});

test('an id of the session that stays away or is empty is none', async () => {
  const { url } = await screensOn(onTestFinished);
  await hit(url, { phoneNumber: BEN, text: '1' });
  expect(await hit(url, { phoneNumber: BEN, text: '1*1', sessionId: '' })).toMatch(/^CON Plot 1: clearing/);
});

test('keys without end are answered', async () => {
  const { url } = await screensOn(onTestFinished);
  const text = '1*0*'.repeat(5000);
  expect(await hit(url, { sessionId: 'S1', phoneNumber: BEN, text })).toMatch(/^CON /);
});

describe('the secret', () => {
  const value = 'a long enough secret';
  const form = { sessionId: 'S1', phoneNumber: BEN, text: '' };
  const post = (url: string, headers: Record<string, string> = {}) =>
    fetch(url, { method: 'POST', body: new URLSearchParams(form), headers });

  test('is taken from a header or from the query, and nothing passes without it', async () => {
    const { line, url } = await screensOn(onTestFinished, { secret: { name: 'x-key', value } });
    expect((await post(url, { 'x-key': value })).status).toBe(200);
    expect((await post(`${url}?x-key=${encodeURIComponent(value)}`)).status).toBe(200);
    await line.db.deleteFrom('ussd_sessions').execute();
    for (const refused of [post(url), post(url, { 'x-key': `${value}x` }), post(`${url}?x-key=`)])
      expect((await refused).status).toBe(403);
    expect(await line.db.selectFrom('ussd_sessions').selectAll().execute()).toEqual([]);
  });

  test('without one only this machine is let in, and nobody that it speaks for', async () => {
    const { url } = await screensOn(onTestFinished);
    expect((await post(url)).status).toBe(200);
    expect((await post(url, { 'x-forwarded-for': '203.0.113.9' })).status).toBe(403);
    expect(await fromElsewhere(url)).toBe(403);
  });
});

/** A request from another address of this machine's loopback net, which is not the one let in. */
function fromElsewhere(url: string): Promise<number> {
  const { port } = new URL(url);
  return new Promise((resolve, reject) => {
    const options = { host: '127.0.0.1', port, path: '/ussd', method: 'POST', localAddress: '127.0.0.2' };
    const sent = request(options, (response) => {
      response.resume();
      resolve(response.statusCode ?? 0);
    });
    sent.on('error', reject);
    sent.end();
  });
}
