/** A table of ten thousand rows with a hundred planted faults: exactly these are found, and the mended table is written whole. */
import { expect, onTestFinished, test, vi } from 'vitest';
import { importPeople } from '../../src/commands/import-people.ts';
import type { PeopleColumn } from '../../src/scheme/people-columns.ts';
import { type TestLine, testLine } from '../support/test-line.ts';
import { VALLEY } from '../support/valley-scheme.ts';

vi.setConfig({ testTimeout: 300_000 });

const ROWS = 10_000;
const FAULTS = 100;
const HEADER =
  'name,phone,language,block,plot,number,area,unit,variety_days,tillage,establishment,nursery,water,place';

type Row = Record<PeopleColumn, string>;

const SCHEME = VALLEY.replace('languages: [en]', 'languages: [en, fr]').replace(
  'people:\n',
  `  - { id: lower, name: Lower, water: { from: "2027-02-20", to: null }, target: { from: "2027-03-25", to: "2027-04-05" } }
people:
`,
);

/** Four plots a grower; every tenth row leaves its label open, every second its number, some names break over two lines. */
function rowOf(index: number): Row {
  const grower = Math.floor(index / 4);
  return {
    name: grower % 50 === 7 ? `Grower\n${grower}` : `Grower ${grower}`,
    phone: `+44740${String(1_000_000 + grower)}`,
    language: grower % 2 === 0 ? 'en' : 'fr',
    block: index % 3 === 0 ? 'Lower' : 'upper',
    plot: index % 10 === 3 ? '' : `Q-${index}`,
    number: index % 2 === 0 ? String((index % 4) + 1) : '',
    area: index % 3 === 0 ? '0,25' : '2500',
    unit: index % 3 === 0 ? '' : 'm2',
    variety_days: index % 5 === 0 ? '' : '110',
    tillage: '',
    establishment: index % 7 === 0 ? 'wet-seed' : '',
    nursery: '',
    water: '',
    place: '',
  };
}

/** Every kind of fault: the column it is told of, and what is put into the row. */
const KINDS: readonly (readonly [PeopleColumn | '', (row: Row, index: number) => Partial<Row>])[] = [
  ['name', () => ({ name: ' ' })],
  ['name', () => ({ name: 'x'.repeat(70) })],
  ['phone', () => ({ phone: '' })],
  ['phone', () => ({ phone: '12345' })],
  ['phone', () => ({ phone: 'nobody' })],
  ['language', () => ({ language: 'xx' })],
  ['language', ({ language }) => ({ language: language === 'en' ? 'fr' : 'en' })],
  ['block', () => ({ block: 'Uper' })],
  ['plot', () => ({ plot: '17-A' })],
  ['plot', (_, index) => ({ plot: `q0${index - 10}` })],
  ['plot', () => ({ plot: 'A-3' })],
  ['number', () => ({ number: '1000' })],
  ['number', () => ({ number: '1' })],
  ['number', () => ({ name: 'Ann', phone: '+447700900001', language: 'en', number: '2' })],
  ['area', () => ({ area: '' })],
  ['area', () => ({ area: '0,x' })],
  ['area', () => ({ area: '0', unit: 'ha' })],
  ['area', () => ({ area: '100.1', unit: 'ha' })],
  ['unit', () => ({ unit: 'rood' })],
  ['variety_days', () => ({ variety_days: '300' })],
  ['tillage', () => ({ tillage: 'ox' })],
  ['establishment', () => ({ establishment: 'sown' })],
  ['nursery', () => ({ nursery: 'wet' })],
  ['water', () => ({ water: 'canal' })],
  ['place', () => ({ place: '0' })],
];

const quoted = (text: string) => (/[",\n]/.test(text) ? `"${text}"` : text);
const csv = (rows: readonly Row[]) =>
  [
    HEADER,
    ...rows.map((row) =>
      HEADER.split(',')
        .map((name) => quoted(row[name as PeopleColumn]))
        .join(','),
    ),
  ].join('\n');

/** Lines that the rows begin on: the header is the first, a name may take two. */
function linesOf(rows: readonly Row[]): readonly number[] {
  let line = 2;
  return rows.map((row) => {
    const own = line;
    line += row.name.includes('\n') ? 2 : 1;
    return own;
  });
}

/** Row 50 and every hundredth after it: the third plot of its grower. */
const faultAt = (index: number) =>
  index % 100 === 50 ? KINDS[Math.floor(index / 100) % KINDS.length] : undefined;

const right = Array.from({ length: ROWS }, (_, index) => rowOf(index));
const wrong = right.map((row, index) => ({ ...row, ...faultAt(index)?.[1](row, index) }));

const counts = async ({ db }: TestLine) => ({
  people: (await db.selectFrom('people').select('id').execute()).length,
  plots: (await db.selectFrom('plots').select('id').execute()).length,
  links: (await db.selectFrom('phone_people').select('phone').execute()).length,
  acts: (await db.selectFrom('agent_acts').select('id').execute()).length,
});

test('exactly the planted faults are found; mended, every row is written; again, nothing is', async () => {
  const line = await testLine(onTestFinished, { schemeText: SCHEME });
  const [scheme] = line.schemes();
  if (!scheme) throw new Error('the test has no scheme');
  const take = (rows: readonly Row[]) =>
    importPeople(line, scheme, { name: 'many.csv', bytes: Buffer.from(csv(rows)) });
  const before = await counts(line);

  const refused = await take(wrong);
  const lines = linesOf(wrong);
  const planted = wrong.flatMap((_, index) => {
    const fault = faultAt(index);
    return fault ? [{ line: lines[index], column: fault[0] }] : [];
  });
  expect(planted).toHaveLength(FAULTS);
  expect(refused.ok ? [] : refused.mistakes.map(({ line: at, column }) => ({ line: at, column }))).toEqual(
    planted,
  );
  expect(await counts(line)).toEqual(before);

  expect(await take(right)).toMatchObject({ ok: true, newGrowers: ROWS / 4, knownPlots: 0 });
  const written = {
    people: before.people + ROWS / 4,
    plots: before.plots + ROWS,
    links: before.links + ROWS / 4,
    acts: 1,
  };
  expect(await counts(line)).toEqual(written);
  const plots = await line.db
    .selectFrom('plots')
    .selectAll()
    .where('scheme_id', '=', scheme.world.id)
    .execute();
  expect(new Set(plots.map(({ label }) => label)).size).toBe(written.plots);
  expect(new Set(plots.map(({ owner_id, number }) => `${owner_id} ${number}`)).size).toBe(written.plots);
  const hectares = plots.reduce((sum, { area_ha }) => sum + area_ha, 0);
  expect(hectares).toBeCloseTo(0.4 + 0.25 + 1 + 0.5 + 0.5 + ROWS * 0.25, 6);

  expect(await take(right)).toMatchObject({ ok: true, changes: [], knownPlots: ROWS });
  expect(await counts(line)).toEqual(written);
});
