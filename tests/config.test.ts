import { expect, test } from 'vitest';
import { readConfig } from '../src/config.ts';
import { COMMON_SHAPE } from '../src/web/ussd/shape.ts';

test('nothing set: the desk, on the usual port and file', () => {
  expect(readConfig({ PATH: '/bin', PORT: '', BUNDLINE_DB: ' ' })).toEqual({
    ok: true,
    config: {
      port: 8080,
      databasePath: 'data/line.db',
      schemePath: null,
      clockStartMs: null,
      carrier: { kind: 'desk' },
      ussd: COMMON_SHAPE,
      signing: null,
      logLevel: 'info',
    },
  });
});

test('what is set is taken', () => {
  const reading = readConfig({
    PORT: '0',
    BUNDLINE_DB: '/tmp/x.db',
    BUNDLINE_SCHEME: 'mine.yaml',
    BUNDLINE_CLOCK: '2027-03-10T07:00:00+03:00',
    BUNDLINE_TWILIO_TOKEN: 'secret',
    BUNDLINE_PUBLIC_URL: 'https://line.example.org/',
    BUNDLINE_LOG_LEVEL: 'silent',
  });
  expect(reading).toMatchObject({
    ok: true,
    config: {
      port: 0,
      databasePath: '/tmp/x.db',
      schemePath: 'mine.yaml',
      clockStartMs: Date.parse('2027-03-10T04:00:00Z'),
      signing: { token: 'secret', publicUrl: 'https://line.example.org/' },
      logLevel: 'silent',
    },
  });
});

function mistakes(environment: Record<string, string>): readonly string[] {
  const reading = readConfig(environment);
  return reading.ok ? [] : reading.mistakes;
}

test('every mistake is listed, by the name of its setting and without its value', () => {
  const found = mistakes({
    PORT: '70000',
    BUNDLINE_CLOCK: '2027-02-30',
    BUNDLINE_CARRIER: 'pigeon',
    BUNDLINE_TWILIO_TOKEN: 'very-secret',
    BUNDLINE_LOG_LEVEL: 'loud',
  });
  expect(found.map((line) => line.split(' ')[0])).toEqual([
    'PORT',
    'BUNDLINE_CLOCK',
    'BUNDLINE_CARRIER',
    'BUNDLINE_LOG_LEVEL',
    'BUNDLINE_PUBLIC_URL',
  ]);
  expect(found.join()).not.toMatch(/very-secret|70000|pigeon|loud/);
});

test.each(['-1', '65536', '80a', '1e3', '0x50', ' 80'])('PORT %j is refused', (port) => {
  expect(mistakes({ PORT: port })).toHaveLength(1);
});

test.each(['2027-02-29', '2027-03-10T07:00:00', 'tomorrow', '2027-03-10T25:00:00Z', '1773126000000'])(
  'BUNDLINE_CLOCK %j is refused',
  (clock) => {
    expect(mistakes({ BUNDLINE_CLOCK: clock })).toHaveLength(1);
  },
);

test('a real carrier needs its account, token, number and address, and a real clock', () => {
  const carrier = { BUNDLINE_CARRIER: 'twilio' };
  expect(mistakes({ ...carrier, BUNDLINE_CLOCK: '2027-03-10' }).map((line) => line.split(' ')[0])).toEqual([
    'BUNDLINE_TWILIO_TOKEN',
    'BUNDLINE_TWILIO_ACCOUNT',
    'BUNDLINE_TWILIO_FROM',
    'BUNDLINE_PUBLIC_URL',
    'BUNDLINE_CLOCK',
  ]);
  const account = {
    BUNDLINE_TWILIO_ACCOUNT: 'AC1',
    BUNDLINE_TWILIO_TOKEN: 't',
    BUNDLINE_TWILIO_FROM: '+447700900999',
  };
  const reading = readConfig({ ...carrier, ...account, BUNDLINE_PUBLIC_URL: 'https://line.example.org' });
  expect(reading).toMatchObject({
    ok: true,
    config: {
      carrier: {
        kind: 'twilio',
        baseUrl: 'https://api.twilio.com',
        accountSid: 'AC1',
        token: 't',
        from: '+447700900999',
        partsPerSecond: 1,
      },
    },
  });
});

test.each(['0', '-1', '1001', 'fast'])('BUNDLINE_PARTS_PER_SECOND %j is refused', (parts) => {
  expect(mistakes({ BUNDLINE_PARTS_PER_SECOND: parts })).toHaveLength(1);
});

test.each([
  'line.example.org',
  'ftp://line.example.org',
  'https://line.example.org/sms',
  'https://line.example.org?x=1',
])('BUNDLINE_PUBLIC_URL %j is refused: paths are added to it', (url) => {
  expect(mistakes({ BUNDLINE_PUBLIC_URL: url })).toHaveLength(1);
});
