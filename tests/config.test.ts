import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, onTestFinished, test } from 'vitest';
import { readConfig, readStartConfig } from '../src/config.ts';
import { COMMON_SHAPE } from '../src/web/ussd/shape.ts';
import { newFolder } from './support/test-line.ts';

const SCHEME = fileURLToPath(new URL('../scripts/demo/orrowe-valley.yaml', import.meta.url));
const HEX_32 = '0123456789abcdefABCDEF0123456789';
/** All that an account of the usual carrier needs. */
const ACCOUNT = {
  BUNDLINE_CARRIER: 'twilio',
  BUNDLINE_TWILIO_ACCOUNT: `AC${HEX_32}`,
  BUNDLINE_TWILIO_TOKEN: 't',
  BUNDLINE_TWILIO_FROM: '+447700900999',
  BUNDLINE_PUBLIC_URL: 'https://line.example.org',
};

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
      publicUrl: null,
      logLevel: 'info',
    },
  });
});

test('what is set is taken', () => {
  const reading = readConfig({
    PORT: '0',
    BUNDLINE_DB: '/tmp/x.db',
    BUNDLINE_SCHEME: SCHEME,
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
      schemePath: SCHEME,
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
  const reading = readConfig(ACCOUNT);
  expect(reading).toMatchObject({
    ok: true,
    config: {
      carrier: {
        kind: 'twilio',
        baseUrl: 'https://api.twilio.com',
        accountSid: `AC${HEX_32}`,
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

test.each([
  ['https://line.example.org/bundline'],
  ['https://line.example.org:443/bundline/'],
  ['http://example.org/a/b'],
])('BUNDLINE_PUBLIC_URL %j may have a path before the line’s own', (url) => {
  const reading = readConfig({ ...ACCOUNT, BUNDLINE_PUBLIC_URL: url });
  expect(reading).toMatchObject({ ok: true, config: { publicUrl: url, signing: { publicUrl: url } } });
});

test.each(['/sms', '/line/sms/', '/ussd', '/gateway', '/sms/status', '/line#x', '/line?x', '/a b'])(
  'BUNDLINE_PUBLIC_URL that ends in %j is refused',
  (path) => {
    const url = `https://line.example.org${path}`;
    expect(mistakes({ BUNDLINE_PUBLIC_URL: url })).toHaveLength(1);
  },
);

test.each(['+447700900999', '60606', '838', 'Orrowe', 'Orrowe 2 A', `MG${HEX_32}`])(
  'texts may come from %j',
  (from) => {
    expect(mistakes({ ...ACCOUNT, BUNDLINE_TWILIO_FROM: from })).toEqual([]);
  },
);

test.each([
  '07700900998',
  '447700900998',
  '+0447700900999',
  '+4477009009991234',
  '12',
  'Orrowe Valley',
  'MG12345678901',
  `MG${HEX_32}0`,
  '+44 7700 900999',
  '...',
])('texts cannot come from %j', (from) => {
  const found = mistakes({ ...ACCOUNT, BUNDLINE_TWILIO_FROM: from });
  expect(found).toEqual([expect.stringMatching(/^BUNDLINE_TWILIO_FROM must be a number like/)]);
  expect(found.join()).not.toContain(from);
});

test('an account’s id is known by its look at the usual carrier alone', () => {
  const at = (account: string, url?: string) =>
    mistakes({ ...ACCOUNT, BUNDLINE_TWILIO_ACCOUNT: account, ...(url && { BUNDLINE_TWILIO_URL: url }) });
  for (const wrong of ['AC1', `AX${HEX_32}`, `AC${HEX_32}0`, `AC${'g'.repeat(32)}`]) {
    expect(at(wrong), wrong).toEqual([expect.stringContaining('must be AC and 32 hex digits')]);
    expect(at(wrong, 'https://API.twilio.com/'), wrong).toHaveLength(1);
    expect(at(wrong, 'https://api.example.org'), wrong).toEqual([]);
  }
  for (const never of ['a/b', 'a b', '/'])
    for (const url of [undefined, 'https://api.example.org'])
      expect(at(never, url), never).toEqual([expect.stringMatching(/^BUNDLINE_TWILIO_ACCOUNT .*blanks/)]);
});

test('a setting that is not known is named, with the nearest that is', () => {
  expect(
    mistakes({
      BUNDLINE_PUBLIC_ULR: 'https://a.example',
      BUNDLINE_USSD_SECERT: 's3cret',
      BUNDLINE_: 'x',
      OTHER: 'x',
    }),
  ).toEqual([
    'BUNDLINE_PUBLIC_ULR is no setting; the nearest is BUNDLINE_PUBLIC_URL',
    'BUNDLINE_USSD_SECERT is no setting; the nearest is BUNDLINE_USSD_SECRET',
    'BUNDLINE_ is no setting; the nearest is BUNDLINE_DB',
  ]);
  expect(mistakes({ BUNDLINE_NOTHING: ' ' })).toEqual([]);
});

test('a scheme’s file that is not there is listed beside other mistakes', () => {
  const folder = newFolder(onTestFinished);
  const path = join(folder, 'none.yaml');
  expect(mistakes({ PORT: 'x', BUNDLINE_SCHEME: path, BUNDLINE_USSD_BODY: 'xml' })).toEqual([
    'PORT must be a port number, 0 to 65535',
    `BUNDLINE_SCHEME ${path} cannot be read: there is no such file (ENOENT)`,
    'BUNDLINE_USSD_BODY must be form or json',
  ]);
  expect(mistakes({ BUNDLINE_SCHEME: folder })).toEqual([
    `BUNDLINE_SCHEME ${folder} cannot be read: it is a folder (EISDIR)`,
  ]);
});

test('real phones need a scheme that somebody has named, or a database that has one', () => {
  const folder = newFolder(onTestFinished);
  const path = join(folder, 'line.db');
  const start = (more: Record<string, string>) => {
    const reading = readStartConfig({ BUNDLINE_DB: path, ...more });
    return reading.ok ? [] : reading.mistakes;
  };
  const told = expect.stringMatching(
    /^BUNDLINE_SCHEME must name your scheme’s file: .*line\.db holds no scheme yet/,
  );
  expect(start(ACCOUNT)).toEqual([told]);
  expect(start({ ...ACCOUNT, PORT: 'x' })).toEqual([expect.stringMatching(/^PORT/), told]);
  expect(start({ BUNDLINE_CARRIER: 'gateway' })).toEqual([expect.stringMatching(/^BUNDLINE_GATEWAY/), told]);
  expect(start({ ...ACCOUNT, BUNDLINE_SCHEME: SCHEME })).toEqual([]);
  expect(start({})).toEqual([]);
  writeFileSync(path, '');
  expect(start(ACCOUNT)).toEqual([]);
});
