import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { importCommand } from '../../src/commands/import.ts';
import { chooseScheme, schemeChosen } from '../../src/commands/scheme-chosen.ts';
import { loadPhone } from '../../src/store/load-phone.ts';
import { openDatabase } from '../../src/store/open.ts';
import { runCommand } from '../support/run-command.ts';
import { NOON_MS, newFolder, testLine } from '../support/test-line.ts';
import { VALLEY } from '../support/valley-scheme.ts';

const PEOPLE = [
  'name;phone;language;block;plot;number;area;unit',
  'Nadia;07700 900101;en;Upper;;;0,35;',
  '"Tomas',
  'Ito";+447700900102;en;upper;B-7;2;1;acre',
  'Ann;+447700900001;en;Upper;A-1;;0,4;',
  'Ann;+447700900001;en;Upper;A-9;;1;',
].join('\r\n');

function valley() {
  const folder = newFolder(onTestFinished);
  const write = (name: string, text: string) => {
    writeFileSync(join(folder, name), text);
    return join(folder, name);
  };
  const settings = {
    databasePath: join(folder, 'line.db'),
    schemePath: write('valley.yaml', VALLEY),
    clockStartMs: NOON_MS,
  };
  return {
    run: (text: string, ...options: readonly string[]) =>
      runCommand(() => importCommand([write('people.csv', text), ...options], settings)),
    bare: (...args: readonly string[]) => runCommand(() => importCommand(args, settings)),
    write,
    open: () => {
      const db = openDatabase(settings.databasePath);
      onTestFinished(() => db.destroy());
      return db;
    },
  };
}

const SUMMARY = [
  'Test Valley: 2 new growers, 3 new plots; known already: 1 plot',
  'Upper: 3 new plots, 1.7547 ha',
];

test('a dry run tells what would come and writes nothing', async () => {
  const { run, open } = valley();
  expect(await run(PEOPLE)).toEqual({
    code: 0,
    out: [...SUMMARY, 'nothing was written; add --write to write it'],
    err: [],
  });
  const db = open();
  expect(await db.selectFrom('plots').select('id').execute()).toHaveLength(5);
  expect(await db.selectFrom('agent_acts').select('id').execute()).toEqual([]);
});

test('with --write all is written, planned and noted, and a second time nothing is', async () => {
  const { run, open } = valley();
  expect(await run(PEOPLE, '--write')).toEqual({ code: 0, out: SUMMARY, err: [] });
  const again = await run(PEOPLE, '--write');
  expect(again.out).toEqual(['Test Valley: 0 new growers, 0 new plots; known already: 4 plots']);
  const db = open();
  const nadia = await loadPhone(db, '+447700900101');
  expect(nadia.plots).toMatchObject([
    { number: '1', label: 'U-1', season: { areaHa: 0.35, varietyDays: 120 } },
  ]);
  const tomas = await loadPhone(db, '+447700900102');
  expect(tomas.people).toMatchObject([{ name: 'Tomas Ito', role: 'grower', lang: 'en' }]);
  expect(
    (await loadPhone(db, '+447700900001')).plots.map(({ label, number }) => `${label} ${number}`),
  ).toEqual(['A-1 1', 'A-2 2', 'A-9 3']);
  const places = db.selectFrom('plots').select(['label', 'place']).where('place', '>', 5).orderBy('place');
  expect((await places.execute()).map(({ label }) => label)).toEqual(['U-1', 'B-7', 'A-9']);
  for (const { plots } of [nadia, tomas]) {
    const reminders = db.selectFrom('reminders').select('due_on').where('sent', '=', 0);
    expect(await reminders.where('season_id', '=', plots[0]?.seasonId ?? '').execute()).not.toEqual([]);
  }
  expect(await db.selectFrom('agent_acts').selectAll().execute()).toMatchObject([
    {
      scheme_id: 'test-valley',
      person_id: null,
      batch: null,
      act: 'import',
      details: 'people.csv: growers 2, plots 3, known 1',
    },
  ]);
});

test('mistakes are printed by their lines, with exit code 1, and nothing is written', async () => {
  const { run, open } = valley();
  const wrong = PEOPLE.replace('0,35', '0,x').replace('acre', 'rood').replace('A-1;;0,4', 'A-1;;0,5');
  expect(await run(wrong, '--write')).toEqual({
    code: 1,
    out: [
      'line 2, area: "0,x" is not a number',
      'line 3, unit: "rood" is no unit of area that is known (ha, m2, acre)',
      'line 5, area: "0,5" is not the area that A-1 is known with: 0.4 ha',
    ],
    err: ['3 mistakes; nothing was written'],
  });
  expect(await open().selectFrom('plots').select('id').execute()).toHaveLength(5);
});

test('of several schemes one must be named, by its id or name', async () => {
  const line = await testLine(onTestFinished);
  const [own] = line.schemes();
  if (!own) throw new Error('the test has no scheme');
  const other = { ...own, world: { ...own.world, id: 'other-valley', name: 'Other Valley' } };
  expect(schemeChosen([own], undefined)).toBe(own);
  expect(schemeChosen([own, other], undefined)).toBeNull();
  expect(schemeChosen([own, other], 'other-valley')).toBe(other);
  expect(schemeChosen([own, other], 'test VALLEY')).toBe(own);
  expect(schemeChosen([own], 'no-valley')).toBeNull();
  expect(chooseScheme([own, other])).toBe('choose a scheme with --scheme: test-valley, other-valley');
});

test('what is not understood is refused with exit code 2', async () => {
  const { bare } = valley();
  for (const args of [[], ['a.csv', 'b.csv'], ['a.csv', '--wirte']])
    expect(await bare(...args)).toEqual({ code: 2, out: [], err: [expect.stringContaining('usage')] });
  const missing = await bare('/nowhere/people.csv');
  expect(missing).toEqual({ code: 2, out: [], err: [expect.stringContaining('cannot be read')] });
});
