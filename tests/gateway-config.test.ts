import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, onTestFinished, test } from 'vitest';
import { readConfig } from '../src/config.ts';
import { readGateway, readGatewayText } from '../src/gateway-config.ts';
import { newFolder } from './support/test-line.ts';

const EXAMPLE = fileURLToPath(new URL('../scripts/demo/kannel-gateway.yaml', import.meta.url));

function mistakes(text: string): readonly string[] {
  const read = readGatewayText(text);
  return read.ok ? [] : read.mistakes;
}

test('the example is read, with defaults for what it leaves out', () => {
  expect(readGateway(EXAMPLE)).toMatchObject({
    ok: true,
    gateway: {
      sending: {
        method: 'GET',
        doubles: 'never',
        timeoutMs: 20_000,
        ucs2: { coding: '2', charset: 'UTF-8' },
      },
      receiving: { ucs2Codings: ['2'], secret: null, fields: { time: null } },
      reports: { id: 'id', gatewayId: null, words: { 16: 'failed' } },
    },
  });
});

const RECEIVE = 'receive: { fields: { from: f, text: t, id: i } }';

test.each([
  ['no place for the text', 'send: { url: "http://a/?{to}" }', 'send must have the place {text} somewhere'],
  [
    'a place that nothing fills',
    'send: { url: "http://a/?{to}{text}{s3cret}" }',
    'send has a place that nothing fills',
  ],
  [
    'a place in the host',
    'send: { url: "http://{to}/?{text}" }',
    'send.url must be an address without a user',
  ],
  [
    'a user in the address',
    'send: { url: "http://u:s3cret@a/?{to}{text}" }',
    'send.url must be an address without a user',
  ],
  [
    'a bad pattern',
    'send: { url: "http://a/?{to}{text}", taken: { pattern: "(s3cret" } }',
    'send.taken.pattern must be a regular',
  ],
  [
    'a charset that lacks letters',
    'send: { url: "http://a/?{to}{text}", ucs2: { charset: ISO-8859-1 } }',
    'send.ucs2.charset must be one that has every letter',
  ],
  [
    'a word for another field',
    'send: { url: "http://a/?{to}{text}", metod: s3cret }',
    'send.metod: no such setting',
  ],
  [
    'fields within a form',
    'send: { url: "http://a/", method: POST, fields: { a: { b: "{to}{text}" } } }',
    'send has fields within fields',
  ],
  [
    'a header that is none',
    'send: { url: "http://a/?{to}{text}", headers: { "x y": s3cret } }',
    'send.headers must be HTTP headers',
  ],
])('%s is told plainly, and nothing of its value', (_, send, mistake) => {
  const found = mistakes(`${send}\n${RECEIVE}\n`);
  expect(found).toHaveLength(1);
  expect(found[0]).toContain(mistake);
  expect(found.join()).not.toContain('s3cret');
});

test('every mistake is listed', () => {
  const send = 'send: { url: "http://a/?{to}{text}", number: s3cret, timeoutMs: 900000 }';
  const receive =
    'receive: { fields: { from: f, text: t }, secret: { field: a, header: b, value: s3cret-s3cret } }';
  const found = mistakes(`${send}\n${receive}\nreport: { status: s, words: { a: s3cret } }\n`);
  expect(found.map((line) => line.split(' ')[0])).toEqual([
    'send.number',
    'send.timeoutMs',
    'receive.fields',
    'receive.secret',
    'report.words.a',
  ]);
  expect(found.join()).not.toContain('s3cret');
});

test.each([
  ['', 'must have the sections'],
  ['a: [s3cret', 'line 1 cannot be read: '],
  ['*s3cret', 'must have'],
  ['- s3cret', 'must have'],
])('a file that is no such thing (%j) is told so', (text, mistake) => {
  const found = mistakes(text);
  expect(found[0]).toContain(mistake);
  expect(found.join()).not.toContain('s3cret');
});

test.each([
  ['send: { url: "http://a/?{to}{text}" }', ['receive is missing']],
  ['send: { url: "http://a/?{to}{text}" }\nreceive:', ['receive is missing']],
  ['send: { url: "http://a/?{to}{text}" }\nreceive: {}', ['receive.fields is missing']],
  [
    `send: { url: "http://a/?{to}{text}" }\n${RECEIVE}\nfoo: s3cret`,
    ['foo: no such section; there are send, receive and report'],
  ],
  [
    `send: { url: "http://a/?{to}{text}", x: 1, y: 2 }\n${RECEIVE}`,
    ['send.x: no such setting', 'send.y: no such setting'],
  ],
  [`send: s3cret\n${RECEIVE}`, ['send must have settings below it']],
  [
    `send: { url: "http://a/?{to}{text}", taken: { status: s3cret } }\n${RECEIVE}`,
    ['send.taken.status must be a list'],
  ],
  [
    `send: { url: "http://a/?{to}{text}" }\n${RECEIVE}\nreport: { id: i, words: { a: sent } }`,
    ['report.status is missing; it must be a name'],
  ],
  ['send:\n\turl: s3cret', ['line 2 cannot be read: a tab stands where blanks must']],
  ['send: {}\nsend: {}', ['line 2 cannot be read: this name is there already']],
])('mistakes are told in plain words: %s', (text, plain) => {
  expect(mistakes(text)).toEqual(plain);
});

test.each([
  'send: [s3cret]\nreceive: s3cret',
  'send: { url: [s3cret], method: s3cret, fields: s3cret, headers: s3cret, values: { "s3 x": 1 }, gsm: s3cret, taken: { status: [s3cret] } }',
  'receive: { fields: s3cret, secret: s3cret, answer: { by: s3cret }, ucs2Codings: s3cret }\nreport: s3cret',
])('nothing is told in the language of the library: %s', (text) => {
  const found = mistakes(text);
  expect(found.length).toBeGreaterThan(1);
  expect(found.join('\n')).not.toMatch(/Invalid|Unrecognized|expected|received|undefined|s3cret/);
});

test('the carrier is chosen and its file named in the environment', () => {
  const chosen = { BUNDLINE_CARRIER: 'gateway' };
  expect(readConfig({ ...chosen, BUNDLINE_GATEWAY: EXAMPLE })).toMatchObject({
    ok: true,
    config: { carrier: { kind: 'gateway', gateway: { receiving: { number: 'plus' } } }, signing: null },
  });
  const told = (more: Record<string, string>) => {
    const read = readConfig({ ...chosen, ...more });
    return read.ok ? [] : read.mistakes;
  };
  expect(told({})).toEqual(['BUNDLINE_GATEWAY must name the file that tells how to talk to it']);
  expect(told({ BUNDLINE_GATEWAY: '/nowhere.yaml', BUNDLINE_CLOCK: '2027-03-10' })).toEqual([
    'BUNDLINE_CLOCK must not be set with a real carrier: real phones live in real time',
    'BUNDLINE_GATEWAY /nowhere.yaml: cannot be read: there is no such file (ENOENT)',
  ]);
  const path = join(newFolder(onTestFinished), 'bad.yaml');
  writeFileSync(path, 'send: {}\n');
  expect(told({ BUNDLINE_GATEWAY: path })[0]).toContain(
    `BUNDLINE_GATEWAY ${path}: send.url is missing; it must be an address`,
  );
});
