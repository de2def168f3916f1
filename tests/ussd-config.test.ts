import { expect, test } from 'vitest';
import { readConfig } from '../src/config.ts';
import { readUssdConfig } from '../src/ussd-config.ts';
import { COMMON_SHAPE } from '../src/web/ussd/shape.ts';

const mistakes = (given: Record<string, string>) => {
  const reading = readUssdConfig(given);
  return reading.ok ? [] : reading.mistakes;
};

test('nothing set: the common form, for this machine only', () => {
  expect(readUssdConfig({})).toEqual({ ok: true, ussd: COMMON_SHAPE });
});

test('every name on the wire comes from the settings', () => {
  const given = {
    BUNDLINE_USSD_INPUTS: 'latest',
    BUNDLINE_USSD_BODY: 'json',
    BUNDLINE_USSD_PHONE_FIELD: 'msisdn',
    BUNDLINE_USSD_SESSION_FIELD: '-',
    BUNDLINE_USSD_INPUT_FIELD: 'keys',
    BUNDLINE_USSD_HIT_FIELD: 'step',
    BUNDLINE_USSD_CODE: '*384*77#',
    BUNDLINE_USSD_ANSWER: 'json',
    BUNDLINE_USSD_GO_ON: 'wait',
    BUNDLINE_USSD_END: 'close',
    BUNDLINE_USSD_TEXT_FIELD: 'show',
    BUNDLINE_USSD_STATE_FIELD: 'after',
    BUNDLINE_USSD_SECRET: 'a long enough secret',
    BUNDLINE_USSD_SECRET_FIELD: 'key',
  };
  expect(readUssdConfig(given)).toEqual({
    ok: true,
    ussd: {
      inputs: 'latest',
      body: 'json',
      fields: { phone: 'msisdn', session: null, input: 'keys', hit: 'step' },
      code: '*384*77',
      answer: { as: 'json', text: 'show', state: 'after', goOn: 'wait', end: 'close' },
      secret: { name: 'key', value: 'a long enough secret' },
    },
  });
});

test('every mistake is listed, and no secret is shown', () => {
  const found = mistakes({
    BUNDLINE_USSD_INPUTS: 'all',
    BUNDLINE_USSD_PHONE_FIELD: 'a b',
    BUNDLINE_USSD_CODE: '123',
    BUNDLINE_USSD_SECRET: 'short-one',
  });
  expect(found.map((line) => line.split(' ')[0])).toEqual([
    'BUNDLINE_USSD_INPUTS',
    'BUNDLINE_USSD_PHONE_FIELD',
    'BUNDLINE_USSD_CODE',
    'BUNDLINE_USSD_SECRET',
  ]);
  expect(found.join()).not.toContain('short-one');
});

test('going on and ending must differ', () => {
  expect(mistakes({ BUNDLINE_USSD_GO_ON: 'END ' })).toHaveLength(1);
});

test.each([
  [{ BUNDLINE_USSD_INPUT_FIELD: 'phoneNumber' }, 'INPUT_FIELD', 'PHONE_FIELD'],
  [
    { BUNDLINE_USSD_PHONE_FIELD: 'msisdn', BUNDLINE_USSD_SESSION_FIELD: 'msisdn' },
    'SESSION_FIELD',
    'PHONE_FIELD',
  ],
  [{ BUNDLINE_USSD_HIT_FIELD: 'text' }, 'HIT_FIELD', 'INPUT_FIELD'],
  [{ BUNDLINE_USSD_SECRET_FIELD: 'sessionId' }, 'SECRET_FIELD', 'SESSION_FIELD'],
  [{ BUNDLINE_USSD_TEXT_FIELD: 'state' }, 'STATE_FIELD', 'TEXT_FIELD'],
])('two things in one field are refused: %o', (given, second, first) => {
  expect(mistakes(given)).toEqual([
    `BUNDLINE_USSD_${second} must name another field than BUNDLINE_USSD_${first}`,
  ]);
});

test('fields that a carrier does not have are not the same field; nor are one of a request and one of an answer', () => {
  expect(mistakes({ BUNDLINE_USSD_SESSION_FIELD: '-', BUNDLINE_USSD_HIT_FIELD: '-' })).toEqual([]);
  expect(mistakes({ BUNDLINE_USSD_TEXT_FIELD: 'text' })).toEqual([]);
});

test('the whole reading has them, and their mistakes', () => {
  expect(readConfig({})).toMatchObject({ ok: true, config: { ussd: COMMON_SHAPE } });
  expect(readConfig({ BUNDLINE_USSD_BODY: 'xml', PORT: 'x' })).toEqual({
    ok: false,
    mistakes: ['PORT must be a port number, 0 to 65535', 'BUNDLINE_USSD_BODY must be form or json'],
  });
});
