import fc from 'fast-check';
import { expect, onTestFinished, test } from 'vitest';
import { ledgerCommand, ledgerLines } from '../../src/commands/ledger.ts';
import { kindOf } from '../../src/commands/ledgers/sum-ledger.ts';
import { isoDay, parseDay } from '../../src/plan/day.ts';
import { sweepDigests } from '../../src/sweeps/sweep-digests.ts';
import { sweepOnce } from '../../src/sweeps/sweep-once.ts';
import { takeText } from '../../src/web/take-text.ts';
import { sendBroadcast, wordsOf } from '../support/broadcasts.ts';
import { runCommand } from '../support/run-command.ts';
import { DAY_MS, HOUR_MS, NOON_MS, type TestLine, testLine } from '../support/test-line.ts';
import { ANN, BEN, BEN_AT_HOME, CYN_AND_DAN, STRANGER, VALLEY } from '../support/valley-scheme.ts';

/** Dan's plot, the second of the phone that he shares with Cyn, lies in another block; so do both plots of Ben. */
const TWO_BLOCKS = `${VALLEY.replace(
  'people:\n',
  `  - { id: lower, name: Lower, water: { from: null, to: null }, target: { from: null, to: null } }
people:
`,
)
  .replace('owner: dan, block: upper', 'owner: dan, block: lower')
  .replace('owner: ben, block: upper', 'owner: ben, block: lower')}
pricePerPart: { amount: 0.035, currency: GBP }
`;
const BLOCK_OF: Readonly<Record<string, string>> = {
  [ANN]: 'Upper',
  [BEN]: 'Lower',
  [BEN_AT_HOME]: 'Lower',
  [CYN_AND_DAN]: 'Upper',
  [STRANGER]: 'none',
  '+447700900990': 'none',
};
const PHONES = Object.keys(BLOCK_OF);
const KINDS = [
  ['reply:x', 'reply'],
  ['reminder:+447700900001:2027-03-10', 'reminder'],
  ['broadcast:a:+447700900001', 'broadcast'],
  ['digest:+447700900990:2027-03-08', 'digest'],
  ['delivered:a', 'delivery summary'],
  ['text:b:+447700900001', 'other'],
  ['broadcasts', 'other'],
] as const;

interface Sum {
  readonly texts: number;
  readonly parts: number;
  readonly carrierParts: number;
  readonly carrierTold: number;
  readonly price: Readonly<Record<string, string>>;
  readonly unpriced: number;
}
interface Told {
  readonly total: Sum;
  readonly days: Readonly<Record<string, Sum>>;
  readonly blocks: Readonly<Record<string, Sum>>;
  readonly kinds: Readonly<Record<string, Sum>>;
  readonly cameIn: { readonly texts: number; readonly parts: number; readonly carrierParts: number };
}

const dayOf = (text: string) => parseDay(text) ?? Number.NaN;
const SPAN = { from: dayOf('2027-03-08'), to: dayOf('2027-03-12') };

async function told(line: TestLine, span = SPAN): Promise<Told> {
  const [scheme] = line.schemes();
  if (scheme === undefined) throw new Error('the test has no scheme');
  const [json = ''] = await ledgerLines(line.db, scheme, { ...span, takesStrangers: true }, { json: true });
  expect(json).not.toMatch(/\+?44\d{6}|Ann|Ben\b/);
  return JSON.parse(json) as Told;
}

test.each(KINDS)('a text of key %s is %s', (key, kind) => {
  expect(kindOf(key)).toBe(kind);
});

const anyRow = fc.record({
  phone: fc.constantFrom(...PHONES),
  key: fc.constantFrom(...KINDS),
  /** Nairobi is three hours ahead: a day begins at 21:00 UTC. */
  handed: fc.option(fc.integer({ min: dayOf('2027-03-06') * DAY_MS, max: dayOf('2027-03-14') * DAY_MS })),
  parts: fc.integer({ min: 1, max: 5 }),
  carrierParts: fc.option(fc.integer({ min: 1, max: 6 })),
  /** Thousandths of a pound or of a euro. */
  price: fc.option(fc.tuple(fc.integer({ min: 0, max: 5000 }), fc.constantFrom('GBP', 'EUR'))),
  answer: fc.boolean(),
});

test('every total is the plain sum over the rows', async () => {
  const line = await testLine(onTestFinished, { schemeText: TWO_BLOCKS });
  for (const phone of PHONES) await takeText(line, { carrierId: `0 ${phone}`, from: phone, text: 'hello' });
  await fc.assert(
    fc.asyncProperty(fc.array(anyRow, { maxLength: 60 }), async (rows) => {
      await line.db.deleteFrom('outbox').execute();
      await line.db.deleteFrom('texts_in').execute();
      await insert(line, rows);
      const out = await told(line);
      const counted = rows.filter(({ handed }) => handed !== null && inSpan(handed));
      expect(out.total).toEqual(plainSum(counted));
      expect(out.days).toEqual(by(counted, ({ handed }) => localDate(handed ?? 0)));
      expect(out.blocks).toEqual(by(counted, ({ phone }) => BLOCK_OF[phone] ?? '?'));
      expect(out.kinds).toEqual(by(counted, ({ answer, key }) => (answer ? 'reply' : key[1])));
      const came = counted.filter(({ answer }) => answer);
      expect(out.cameIn.texts).toBe(came.length);
      expect(out.cameIn.carrierParts).toBe(came.reduce((sum, row) => sum + (row.carrierParts ?? 0), 0));
    }),
    { numRuns: 40 },
  );
});

type Row = typeof anyRow extends fc.Arbitrary<infer T> ? T : never;
const localDate = (ms: number) => new Date(ms + 3 * HOUR_MS).toISOString().slice(0, 10);
const inSpan = (ms: number) => localDate(ms) >= '2027-03-08' && localDate(ms) <= '2027-03-12';

function by(rows: readonly Row[], nameOf: (row: Row) => string): Record<string, Sum> {
  const names = [...new Set(rows.map(nameOf))];
  return Object.fromEntries(
    names.map((name) => [name, plainSum(rows.filter((row) => nameOf(row) === name))]),
  );
}

/** In thousandths, so that numbers stay whole. */
function plainSum(rows: readonly Row[]): Sum {
  const told = rows.filter(({ carrierParts, answer }) => carrierParts !== null && !answer);
  const price: Record<string, string> = {};
  for (const currency of ['GBP', 'EUR']) {
    const own = rows.flatMap((row) => (row.price?.[1] === currency ? [row.price[0]] : []));
    if (own.length > 0) price[currency] = String(own.reduce((sum, one) => sum + one, 0) / 1000);
  }
  return {
    texts: rows.length,
    parts: rows.reduce((sum, { parts }) => sum + parts, 0),
    carrierParts: told.reduce((sum, { carrierParts }) => sum + (carrierParts ?? 0), 0),
    carrierTold: told.length,
    price,
    unpriced: rows.filter((row) => row.price === null).length,
  };
}

async function insert(line: TestLine, rows: readonly Row[]): Promise<void> {
  for (const [index, { phone, key, handed, parts, carrierParts, price, answer }] of rows.entries()) {
    const id = `row-${index}`;
    const cost = { price: price && (price[0] / 1000).toFixed(3), currency: price?.[1] ?? null };
    if (answer && handed !== null) {
      const kept = {
        id,
        carrier_id: id,
        phone,
        turn: index,
        body: 'x',
        received_ms: handed,
        answer: 'y',
        faulty: 0,
      } as const;
      const sizes = {
        encoding: 'GSM-7',
        units: 1,
        parts: 1,
        answer_encoding: 'GSM-7',
        answer_units: 1,
        answer_parts: parts,
      };
      await line.db
        .insertInto('texts_in')
        .values({
          ...kept,
          ...sizes,
          carrier_parts: carrierParts,
          answer_price: cost.price,
          currency: cost.currency,
          delivery_token: null,
        })
        .execute();
      continue;
    }
    const times = { created_ms: 1, not_before_ms: 1, expires_ms: 1, lease_until_ms: 0, attempts: 1 };
    const text = {
      id,
      key: `${key[0]}${key[1] === 'other' && key[0] === 'broadcasts' ? '' : ':'}${index}`,
      phone,
      text: 'x',
    };
    const size = { encoding: 'GSM-7', units: 1, parts, carrier_parts: carrierParts };
    const state = handed === null ? 'failed' : 'delivered';
    await line.db
      .insertInto('outbox')
      .values({ ...text, ...times, ...size, ...cost, state, handed_ms: handed })
      .execute();
  }
}

test('what the line itself sends is told by kind, block and day; what waits or fails costs nothing', async () => {
  const line = await testLine(onTestFinished, { schemeText: TWO_BLOCKS });
  await takeText(line, { carrierId: '1', from: CYN_AND_DAN, text: 'hello', carrierParts: 2 });
  await takeText(line, { carrierId: '2', from: STRANGER, text: 'hello' });
  await sendBroadcast(line.db, 'one', wordsOf('The canal is shut.'));
  await sweepOnce(line);
  line.clock.set(Date.parse('2027-03-15T15:00:00Z'));
  await sweepDigests(line);
  const before = await told(line);
  expect(before.kinds['reply']).toMatchObject({ texts: 2, parts: 2, price: { GBP: '0.07' } });
  expect(before.kinds['broadcast']?.texts).toBeGreaterThan(1);
  expect(before.kinds['digest']).toBeUndefined();
  expect(before.blocks['none']).toMatchObject({ texts: 1 });
  expect(Object.keys(before.days)).toEqual([isoDay(dayOf('2027-03-10'))]);
  expect(before.cameIn).toEqual({ texts: 2, parts: 2, carrierParts: 2 });
  await sweepOnce(line);
  const later = await told(line, { from: dayOf('2027-03-15'), to: dayOf('2027-03-15') });
  expect(later.kinds['digest']).toMatchObject({ texts: 1 });
});

test('the command prints an aligned table without numbers or names of people, and refuses what it cannot read', async () => {
  const line = await testLine(onTestFinished, { schemeText: TWO_BLOCKS });
  await takeText(line, { carrierId: '1', from: ANN, text: 'hello' });
  const settings = { databasePath: line.path, schemePath: null, clockStartMs: NOON_MS };
  await line.close();
  const run = (...args: string[]) => runCommand(() => ledgerCommand(args, settings));
  const { code, out } = await run('--from', '2027-03-01');
  expect(code).toBe(0);
  expect(out.join('\n')).toBe(`Test Valley, 2027-03-01 to 2027-03-10: texts that the carrier took

day         texts  parts  carrier’s parts      price
2027-03-10      1      1                -  0.035 GBP

block       texts  parts  carrier’s parts      price
Upper           1      1                -  0.035 GBP

kind        texts  parts  carrier’s parts      price
reply           1      1                -  0.035 GBP

sum         texts  parts  carrier’s parts      price
all             1      1                -  0.035 GBP

Texts in: 1, parts 1, by the carrier 0.`);
  expect(await run('--from', 'March')).toMatchObject({
    code: 2,
    err: ['--from must be a date like 2027-03-10'],
  });
  expect(await run('--from', '2027-04-01')).toMatchObject({ code: 2, err: ['--from comes after --to'] });
  expect((await run('--scheme', 'nowhere')).code).toBe(2);
  expect((await run('--everything')).code).toBe(2);
  const nowhere = { ...settings, databasePath: `${line.path}.none` };
  expect((await runCommand(() => ledgerCommand([], nowhere))).err).toEqual([
    `there is no database ${nowhere.databasePath}`,
  ]);
});

test('the table shows two decimals at least, and JSON what was summed', async () => {
  const schemeText = TWO_BLOCKS.replace('amount: 0.035', 'amount: 0.1');
  const line = await testLine(onTestFinished, { schemeText });
  for (const carrierId of ['1', '2']) await takeText(line, { carrierId, from: ANN, text: 'hello' });
  const [scheme] = line.schemes();
  if (scheme === undefined) throw new Error('the test has no scheme');
  const rows = await ledgerLines(line.db, scheme, { ...SPAN, takesStrangers: true }, {});
  const priced = rows.filter((row) => row.includes('GBP'));
  expect(priced).toHaveLength(4);
  for (const row of priced) expect(row).toMatch(/ 0\.20 GBP$/);
  expect((await told(line)).total.price).toEqual({ GBP: '0.2' });
});
