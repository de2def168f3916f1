import { describe, expect, test } from 'vitest';
import { readSchemeFile, type SchemeMistake } from '../../src/scheme/scheme-file.ts';
import { day } from '../support/seasons.ts';

const LOADED = day('2027-03-01');

const GOOD = `id: small-valley
name: Small Valley
code: SMALL
timeZone: Africa/Nairobi
country: GB
languages: [en]
officer: { name: Office, phone: "+447700900990" }
blocks:
  - { id: upper, name: Upper, water: { from: "2027-02-20", to: null }, target: { from: "+25", to: "+35" } }
people:
  - { id: office, name: Office, lang: en, role: agent, phones: ["+447700900990"] }
  - { id: hana, name: Hana, lang: en, phones: ["+447700900008"] }
  - { id: issa, name: Issa, lang: en, phones: ["+447700900008", "+447700900009"] }
plots:
  - { id: p1, number: "1", label: A-17, owner: hana, block: upper, areaHa: 0.4, varietyDays: 120, way: { tillage: hoe } }
  - { id: p2, number: "2", owner: issa, block: upper, areaHa: 0.3, varietyDays: 120, way: { tillage: none } }
`;

const read = (text: string) => readSchemeFile(text, LOADED);

function mistakesOf(text: string): readonly SchemeMistake[] {
  const reading = read(text);
  return reading.ok ? [] : reading.mistakes;
}

const changed = (from: string, to: string) => {
  if (!GOOD.includes(from)) throw new Error(`not in the file: ${from}`);
  return GOOD.replace(from, to);
};

test('a good file is read, with what it leaves out filled in', () => {
  const reading = read(GOOD);
  expect(reading).toMatchObject({
    ok: true,
    scheme: {
      quietHours: { from: '20:00', to: '07:00' },
      remindAt: '17:00',
      plots: [{ label: 'A-17', way: { water: 'irrigated', establishment: 'transplant' } }, { label: null }],
      people: [{ role: 'agent' }, { role: 'grower' }, { role: 'grower' }],
    },
  });
});

describe('days', () => {
  test.each([
    ['"+25"', LOADED + 25],
    ['"-10"', LOADED - 10],
    ['"+0"', LOADED],
    ['"2027-04-05"', day('2027-04-05')],
    ['null', null],
  ])('%s is read', (written, from) => {
    const reading = read(changed('from: "2027-02-20"', `from: ${written}`));
    expect(reading).toMatchObject({ ok: true, scheme: { blocks: [{ water: { from } }] } });
  });

  test.each(['"2027-02-30"', '"2027-04-31"', '"20 Feb"', '"+1000"', '"25"', '""', '"2027-2-3"'])(
    '%s is no day, and is named with the form to write',
    (written) => {
      const [mistake, ...others] = mistakesOf(changed('"2027-02-20"', written));
      expect(others).toEqual([]);
      expect(mistake?.place).toBe('line 9, blocks, 1, water, from');
      expect(mistake?.what).toContain(`${written} is not a day (write "2027-03-25"`);
    },
  );
});

describe('every kind of mistake is listed with its line and place', () => {
  const WRONG: readonly (readonly [string, string, string, RegExp])[] = [
    ['id: small-valley', 'id: Small Valley', 'line 1, id', /small letters/],
    ['name: Small Valley', 'name: ""', 'line 2, name', /./],
    ['code: SMALL', 'code: small', 'line 3, code', /capital letters/],
    ['timeZone: Africa/Nairobi', 'timeZone: Moon/Sea', 'line 4, timeZone', /time zone/],
    ['country: GB', 'country: Britain', 'line 5, country', /capital letters/],
    ['languages: [en]', 'languages: []', 'line 6, languages', /./],
    ['"+447700900990" }', '"07700" }', 'line 7, officer, phone', /phone number/],
    ['areaHa: 0.4', 'areaHa: -1', 'line 15, plots, 1, areaHa', /./],
    ['areaHa: 0.4', 'areaHa: much', 'line 15, plots, 1, areaHa', /number/],
    ['number: "1"', 'number: one', 'line 15, plots, 1, number', /number in quotes/],
    ['label: A-17', 'label: seventeen', 'line 15, plots, 1, label', /A-17/],
    [
      'varietyDays: 120, way: { tillage: hoe }',
      'varietyDays: 30, way: { tillage: hoe }',
      'line 15, plots, 1, varietyDays',
      /60/,
    ],
    ['tillage: hoe', 'tillage: plane', 'line 15, plots, 1, way, tillage', /hoe/],
    ['tillage: hoe', 'tillage: hoe, colour: red', 'line 15, plots, 1, way', /colour/],
    ['phones: ["+447700900008"]', 'phones: []', 'line 12, people, 2, phones', /./],
    ['role: agent', 'role: king', 'line 11, people, 1, role', /grower/],
    ['officer: { name: Office, phone: "+447700900990" }\n', '', 'line 1, officer', /./],
    // Between fields.
    ['owner: hana', 'owner: nobody', 'line 15, plots, 1, owner', /nobody has the id "nobody"/],
    ['owner: hana', 'owner: office', 'line 15, plots, 1, owner', /"office" is an agent/],
    [
      'block: upper, areaHa: 0.4',
      'block: sea, areaHa: 0.4',
      'line 15, plots, 1, block',
      /no block has the id "sea"/,
    ],
    ['id: p2', 'id: p1', 'line 16, plots, 2, id', /"p1" is there twice/],
    ['id: issa', 'id: hana', 'line 13, people, 3, id', /"hana" is there twice/],
    ['to: "+35"', 'to: "+20"', 'line 9, blocks, 1, target', /end comes before the beginning/],
    [
      '{ id: hana, name: Hana, lang: en',
      '{ id: hana, name: Hana, lang: fr',
      'line 12, people, 2, lang',
      /"fr" is not among/,
    ],
    ['number: "2"', 'number: "1"', 'line 16, plots, 2, number', /plot 1 is there twice on one phone/],
  ];

  test.each(WRONG)('%s -> %s', (from, to, place, what) => {
    const mistakes = mistakesOf(changed(from, to));
    expect(mistakes.map((mistake) => mistake.place)).toContain(place);
    expect(mistakes.find((mistake) => mistake.place === place)?.what).toMatch(what);
  });
});

describe('several mistakes', () => {
  test('of single fields are listed together, in the order of the file', () => {
    const text = changed('code: SMALL', 'code: small')
      .replace('areaHa: 0.4', 'areaHa: 0')
      .replace('"+25"', '"soon"')
      .replace('areaHa: 0.3', 'areaHa: 1000');
    expect(mistakesOf(text).map(({ place }) => place)).toEqual([
      'line 3, code',
      'line 9, blocks, 1, target, from',
      'line 15, plots, 1, areaHa',
      'line 16, plots, 2, areaHa',
    ]);
  });

  test('between fields are listed together', () => {
    const text = changed('owner: hana', 'owner: nobody').replace(
      'block: upper, areaHa: 0.3',
      'block: sea, areaHa: 0.3',
    );
    expect(mistakesOf(text).map(({ place }) => place)).toEqual([
      'line 15, plots, 1, owner',
      'line 16, plots, 2, block',
    ]);
  });
});

describe('plot numbers', () => {
  test('may be the same on different phones', () => {
    const text = changed('phones: ["+447700900008", "+447700900009"]', 'phones: ["+447700900009"]').replace(
      'number: "2"',
      'number: "1"',
    );
    expect(read(text).ok).toBe(true);
  });

  test('must differ for two plots of one grower', () => {
    const text = changed('number: "2", owner: issa', 'number: "1", owner: hana');
    expect(mistakesOf(text)).toMatchObject([{ place: 'line 16, plots, 2, number' }]);
  });
});

describe('text that is no scheme', () => {
  test.each([
    ['a bracket that is not closed', changed('languages: [en]', 'languages: [en'), /^line [67]/],
    ['a tab', changed('  - { id: upper', '\t- { id: upper'), /^line 9/],
    ['a key twice', changed('country: GB', 'country: GB\ncountry: GB'), /^line 6/],
    ['a bad quote', changed('code: SMALL', 'code: "SMALL'), /^line/],
    ['an alias that names nothing', changed('owner: hana', 'owner: *hana'), /^line 15/],
    ['nothing', '', /^line 1/],
    ['a list', '- 1\n- 2', /^line 1/],
    ['a word', 'hello', /^line 1/],
    ['another format', '{"id": 3}', /^line 1/],
  ])('%s is refused with its line', (_, text, place) => {
    const mistakes = mistakesOf(text);
    expect(mistakes.length).toBeGreaterThan(0);
    for (const mistake of mistakes) expect(mistake.what).not.toBe('');
    expect(mistakes[0]?.place).toMatch(place);
  });
});
