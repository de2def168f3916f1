import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { describe, expect, onTestFinished, test } from 'vitest';
import { planPlot } from '../../src/agronomy/plan-plot.ts';
import { exportCommand, exportFiles } from '../../src/commands/export.ts';
import { choose } from '../../src/commands/exports/chosen.ts';
import { guard } from '../../src/commands/exports/csv-text.ts';
import { schemeChosen } from '../../src/commands/scheme-chosen.ts';
import { isoDay, parseDay } from '../../src/plan/day.ts';
import { changePeople } from '../../src/store/change-people.ts';
import { countedIds } from '../../src/store/ids.ts';
import { loadPhone, worldOf } from '../../src/store/load-phone.ts';
import { renamePerson } from '../../src/store/people.ts';
import { settingOf } from '../../src/sweeps/phone-setting.ts';
import { takeText } from '../../src/web/take-text.ts';
import { readCalendar } from '../support/calendar.ts';
import { runCommand } from '../support/run-command.ts';
import { HOUR_MS, NOON_MS, newFolder, type TestLine, testLine } from '../support/test-line.ts';
import { ANN, BEN, VALLEY } from '../support/valley-scheme.ts';

/** Two blocks, a day of rest, usual weather and a figure of the scheme's own: all of it is in the plans. */
const SCHEME = `${VALLEY.replace(
  'people:\n',
  `  - { id: lower, name: "Lower, and wet", water: { from: null, to: "2027-06-01" }, target: { from: "2027-03-30", to: null } }
people:
`,
)
  .replace('label: A-3, owner: ben, block: upper', 'label: A-3, owner: ben, block: lower')
  .replace('label: A-5, ', '')}
restDays: { weekdays: [friday] }
climate:
  latitude: 8
  minTemperatureC: [20, 21, 23, 24, 24, 23, 22, 22, 22, 22, 21, 20]
  maxTemperatureC: [32, 34, 35, 34, 32, 30, 29, 29, 30, 31, 32, 32]
  source: "invented"
rulebook:
  rules:
    - { rule: rot, lo: 16, aim: 18, hi: 25, source: "invented" }
`;

type Row = Readonly<Record<string, string>>;
const rowsOf = (csv: string | undefined) => parse(csv ?? '', { columns: true }) as Row[];

async function exported(
  line: TestLine,
  { block, phones = false }: { block?: string; phones?: boolean } = {},
) {
  const scheme = schemeChosen(line.schemes(), undefined);
  const chosen = scheme && choose(scheme, block);
  if (!chosen) throw new Error('the test has no such block');
  return new Map(await exportFiles(line, chosen, { phones }));
}

const valley = () => testLine(onTestFinished, { schemeText: SCHEME });
const remove = (line: TestLine, plot: string) =>
  changePeople(
    line.db,
    'test-valley',
    { kind: 'remove-plot', plotId: `test-valley/${plot}` },
    countedIds('c'),
  );

let texts = 0;
async function text(line: TestLine, from: string, words: string) {
  texts += 1;
  await takeText(line, { carrierId: `E${texts}`, from, text: words });
}

describe('plots.csv', () => {
  test('has every plot by block and place, also those that were removed, and no phone', async () => {
    const line = await valley();
    await remove(line, 'p2');
    const csv = (await exported(line)).get('plots.csv');
    expect(
      rowsOf(csv).map(({ label, number, grower, block, area_ha, open }) => ({
        label,
        number,
        grower,
        block,
        area_ha,
        open,
      })),
    ).toEqual([
      { label: 'A-1', number: '1', grower: 'Ann', block: 'Upper', area_ha: '0.4', open: 'yes' },
      { label: 'A-2', number: '2', grower: 'Ann', block: 'Upper', area_ha: '0.25', open: 'no' },
      { label: 'A-4', number: '1', grower: 'Cyn', block: 'Upper', area_ha: '0.5', open: 'yes' },
      { label: '', number: '2', grower: 'Dan', block: 'Upper', area_ha: '0.5', open: 'yes' },
      { label: 'A-3', number: '1', grower: 'Ben', block: 'Lower, and wet', area_ha: '1', open: 'yes' },
    ]);
    expect(rowsOf(csv)[0]).toMatchObject({
      ...{ language: 'en', variety_days: '120', water: 'irrigated', tillage: 'hoe' },
      ...{ establishment: 'transplant', nursery: 'wet-bed', ripens: 'by-days' },
    });
    expect(csv).not.toContain('447700900');
    expect(csv?.split('\r\n')).toHaveLength(7);
  });

  test('has phones when they are asked for, guarded like all text that a spreadsheet would reckon', async () => {
    const line = await valley();
    await renamePerson(line.db, 'test-valley/ann', '=HYPERLINK("x")');
    const rows = rowsOf((await exported(line, { phones: true })).get('plots.csv'));
    expect(rows[0]).toMatchObject({ grower: '\'=HYPERLINK("x")', phone: `'${ANN}` });
    expect(rows.at(-1)).toMatchObject({ grower: 'Ben', phone: `'${BEN} +447700900012` });
    expect(['=1', '+1', '-1', '@x', 'a=1', ''].map(guard)).toEqual(["'=1", "'+1", "'-1", "'@x", 'a=1', '']);
  });

  test('of one block has that block only, and so has every other file', async () => {
    const line = await valley();
    await text(line, ANN, 'ploughed 1');
    const files = await exported(line, { block: 'lower, AND wet' });
    expect([...files.keys()]).toEqual(['plots.csv', 'reports.csv', 'plans.csv', 'acts.csv', 'lower.ics']);
    expect(rowsOf(files.get('plots.csv')).map(({ label }) => label)).toEqual(['A-3']);
    expect(rowsOf(files.get('reports.csv'))).toEqual([]);
    expect(new Set(rowsOf(files.get('plans.csv')).map(({ plot }) => plot))).toEqual(new Set(['A-3']));
  });
});

test('reports.csv has what was reported by the clock of the scheme, rain, and what was taken back', async () => {
  const line = await valley();
  await text(line, ANN, 'ploughed 1');
  line.clock.advance(HOUR_MS);
  await text(line, ANN, 'ploughed 2');
  await text(line, ANN, 'undo');
  const batch = (await line.db.selectFrom('texts_in').select('id').executeTakeFirst())?.id ?? '';
  const rain = {
    id: 'r',
    season_id: 'test-valley/p5/1',
    batch,
    phone: null,
    turn: 9,
    activity: 'rain',
    stage: 'finished',
  };
  const said = { done_on: '2027-03-09', measures: '{"mm":20}', said_ms: NOON_MS + 2 * HOUR_MS };
  await line.db
    .insertInto('reports')
    .values({ ...rain, ...said })
    .execute();
  await line.db
    .updateTable('reports')
    .set({ measures: '{"depthCm":12}' })
    .where('season_id', '=', 'test-valley/p1/1')
    .execute();
  const common = { activity: 'plough', stage: 'finished', on: '2027-03-10', rain_mm: '' };
  expect(rowsOf((await exported(line)).get('reports.csv'))).toEqual([
    { plot: 'A-1', ...common, depth_cm: '12', texted_at: '2027-03-10T12:00:00+03:00', taken_back: 'no' },
    { plot: 'A-2', ...common, depth_cm: '', texted_at: '2027-03-10T13:00:00+03:00', taken_back: 'yes' },
    {
      plot: 'Dan 2',
      activity: 'rain',
      stage: 'finished',
      on: '2027-03-09',
      depth_cm: '',
      rain_mm: '20',
      texted_at: '2027-03-10T14:00:00+03:00',
      taken_back: 'no',
    },
  ]);
});

/** The plans of a phone's plots as a conversation makes them. */
async function plansOnPhone(line: TestLine, phone: string) {
  const [scheme] = line.schemes();
  if (!scheme) throw new Error('the test has no scheme');
  const world = worldOf(await loadPhone(line.db, phone), settingOf(line, scheme, line.clock.nowMs()));
  return world.plots.map(({ label, season }) => ({
    label,
    plan: planPlot(season, world.rulebook, world.today),
  }));
}

const iso = (day: number | null) => (day === null ? '' : isoDay(day));

test('plans.csv has the plans that growers are told', async () => {
  const line = await valley();
  await text(line, ANN, 'ploughed 1');
  await remove(line, 'p4');
  const rows = rowsOf((await exported(line)).get('plans.csv'));
  const plans = [...(await plansOnPhone(line, ANN)), ...(await plansOnPhone(line, BEN))];
  const told = plans.flatMap(({ label, plan }) =>
    plan.steps.map(({ activity, round, status, on, earliest, due, latest }) => ({
      ...{ plot: label, activity, round: round === null ? '' : String(round), status },
      ...{ on: iso(on), earliest: iso(earliest), due: iso(due), latest: iso(latest) },
    })),
  );
  expect(rows.filter(({ plot }) => plot !== 'Dan 2')).toEqual(told);
  expect(told).toContainEqual(
    expect.objectContaining({ plot: 'A-1', activity: 'plough', status: 'done', on: '2027-03-10' }),
  );
  const dues = rows.flatMap(({ due }) => (due ? [parseDay(due) ?? 0] : []));
  expect(dues.length).toBeGreaterThan(20);
  expect(new Set(rows.map(({ plot }) => plot))).toEqual(new Set(['A-1', 'A-2', 'Dan 2', 'A-3']));
});

describe('a block’s calendar', () => {
  test('names on every day the plots that are due, as plans.csv has them', async () => {
    const line = await valley();
    await text(line, ANN, 'ploughed 1');
    const files = await exported(line);
    const plans = rowsOf(files.get('plans.csv'));
    for (const [file, plots] of [
      ['upper.ics', ['A-1', 'A-2', 'A-4', 'Dan 2']],
      ['lower.ics', ['A-3']],
    ] as const) {
      const events = readCalendar(files.get(file) ?? '').filter(({ summary }) =>
        /^\w[\w ]*: [AD]/.test(summary),
      );
      const found = events.flatMap(({ summary, start }) => {
        const [what = '', names = ''] = summary.split(': ');
        return names.split(', ').map((name) => `${start} ${what.toLowerCase().replaceAll(' ', '-')} ${name}`);
      });
      const due = plans
        .filter(({ plot, due: on }) => on !== '' && (plots as readonly string[]).includes(plot ?? ''))
        .map(({ plot, activity, due: on }) => `${on} ${activity} ${plot}`);
      expect(due.length).toBeGreaterThan(10);
      expect(found.sort()).toEqual([...new Set(due)].sort());
    }
  });

  test('has the water, the planting window, turns and visits, with instants in UTC', async () => {
    const line = await valley();
    const head = {
      scheme_id: 'test-valley',
      phone: ANN,
      state: 'told',
      next_after: '',
      created_ms: 0,
    } as const;
    const day = parseDay('2027-03-12') ?? 0;
    const visit = (from: number, to: number) =>
      JSON.stringify({ start: { day, hour: from }, end: { day, hour: to } });
    await line.db
      .insertInto('broadcasts')
      .values([
        { id: 'b1', ...head, head: '{"kind":"water"}' },
        { id: 'b2', ...head, head: '{"kind":"team","teamName":"Red tiller"}' },
      ])
      .execute();
    await line.db
      .insertInto('appointments')
      .values([
        { plot_id: 'test-valley/p1', kind: 'water', broadcast_id: 'b1', visit: visit(1.5, 24), before: null },
        { plot_id: 'test-valley/p1', kind: 'team', broadcast_id: 'b2', visit: visit(8, 9.75), before: null },
        { plot_id: 'test-valley/p2', kind: 'water', broadcast_id: 'b1', visit: null, before: visit(1, 2) },
        { plot_id: 'test-valley/p3', kind: 'water', broadcast_id: 'b1', visit: visit(10, 11), before: null },
      ])
      .execute();
    const files = await exported(line);
    const shown = (file: string) =>
      readCalendar(files.get(file) ?? '')
        .filter(({ uid }) => /\/(water|planting|team)@/.test(uid))
        .map(({ summary, start, end }) => `${start} ${end} ${summary}`);
    expect(shown('upper.ics')).toEqual([
      '2027-02-20 2027-02-21 Upper: water in the canal from today',
      '2027-03-25 2027-04-06 Upper: planting window',
      '2027-03-12T05:00:00Z 2027-03-12T06:45:00Z Red tiller: A-1',
      '2027-03-11T22:30:00Z 2027-03-12T21:00:00Z Water: A-1',
    ]);
    expect(shown('lower.ics')).toEqual([
      '2027-06-01 2027-06-02 Lower, and wet: last day of water in the canal',
      '2027-03-30 2027-03-31 Lower, and wet: planting window opens',
      '2027-03-12T07:00:00Z 2027-03-12T08:00:00Z Water: A-3',
    ]);
  });

  test('made again has the same names for the same things, and a newer stamp', async () => {
    const line = await valley();
    const before = readCalendar((await exported(line)).get('upper.ics') ?? '');
    line.clock.advance(HOUR_MS);
    const after = readCalendar((await exported(line)).get('upper.ics') ?? '');
    expect(after.map(({ uid, summary, start }) => [uid, summary, start])).toEqual(
      before.map(({ uid, summary, start }) => [uid, summary, start]),
    );
    expect(new Set(after.map(({ uid }) => uid)).size).toBe(after.length);
    expect([before[0]?.stamp, after[0]?.stamp]).toEqual(['2027-03-10T09:00:00Z', '2027-03-10T10:00:00Z']);
  });
});

describe('the command', () => {
  test('writes the files into a folder that it makes', async () => {
    const folder = newFolder(onTestFinished);
    const settings = { databasePath: join(folder, 'line.db'), schemePath: null, clockStartMs: NOON_MS };
    const out = join(folder, 'a', 'b');
    const run = await runCommand(() => exportCommand(['--out', out, '--block', 'middle'], settings));
    const names = ['acts.csv', 'middle.ics', 'plans.csv', 'plots.csv', 'reports.csv'];
    expect(run).toMatchObject({ code: 0, err: [] });
    expect([...run.out].sort()).toEqual(names.map((name) => join(out, name)));
    expect(readdirSync(out).sort()).toEqual(names);
    expect(readFileSync(join(out, 'plots.csv'), 'utf8')).toMatch(/^label,number,grower,language,block,/);
    const wrong = await runCommand(() => exportCommand(['--out', out, '--block', 'nowhere'], settings));
    expect(wrong).toEqual({ code: 2, out: [], err: ['the blocks are Upper, Middle, Lower'] });
    const taken = await runCommand(() => exportCommand(['--out', join(out, 'plots.csv')], settings));
    expect(taken).toEqual({ code: 2, out: [], err: [expect.stringContaining('cannot be written')] });
  });

  test('is refused with exit code 2 when it is not understood', async () => {
    const settings = { databasePath: '/nowhere/line.db', schemePath: null, clockStartMs: null };
    for (const args of [[], ['--out'], ['--out', 'x', '--telephones'], ['x', '--out', 'x']])
      expect(await runCommand(() => exportCommand(args, settings))).toEqual({
        code: 2,
        out: [],
        err: [expect.stringContaining('usage')],
      });
  });
});
