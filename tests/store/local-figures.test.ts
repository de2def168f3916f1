/** A scheme's own figures, days of rest, weather and rains on their way through a real database into plans. */
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { planPlot } from '../../src/agronomy/plan-plot.ts';
import { stepFor } from '../../src/agronomy/plot-plan.ts';
import { DEFAULT_RULEBOOK } from '../../src/agronomy/rules/default-rulebook.ts';
import { isoDay } from '../../src/plan/day.ts';
import { loadPhone, worldOf } from '../../src/store/load-phone.ts';
import type { Line } from '../../src/sweeps/line.ts';
import { schemeOf, settingOf } from '../../src/sweeps/phone-setting.ts';
import { readVoices } from '../../src/sweeps/read-voices.ts';
import { realTalk } from '../../src/sweeps/real-talk.ts';
import { SchemeFileError } from '../../src/sweeps/seed-of-file.ts';
import { takeText } from '../../src/web/take-text.ts';
import { day } from '../support/seasons.ts';
import { newFolder, testLine } from '../support/test-line.ts';
import { ANN, BEN, seasonOf, VALLEY } from '../support/valley-scheme.ts';

const ROT =
  'rulebook: { rules: [{ rule: rot, lo: 22, aim: 23, hi: 25, source: "Valley office: trials" }] }\n';

/** The test valley, ploughed by tractor: days of work do not hide those of rotting. */
const TRACTORS = VALLEY.replaceAll('tillage: hoe', 'tillage: two-wheel');

/** A line of the test valley with more in its file, and the real conversation. */
const opened = (more: string, parts: object = {}) =>
  testLine(onTestFinished, {
    talk: realTalk,
    voices: readVoices(),
    schemeText: `${TRACTORS}${more}`,
    ...parts,
  });

async function worldFor(line: Line, phone: string) {
  const facts = await loadPhone(line.db, phone);
  return worldOf(facts, settingOf(line, schemeOf(line, facts), line.clock.nowMs()));
}

/** The first day for puddling of Ann's first plot, flooded on 10 March. */
async function puddling(line: Line) {
  await takeText(line, { carrierId: 'c1', from: ANN, text: 'ploughed 1 on 8 March, 12 cm' });
  await takeText(line, { carrierId: 'c2', from: ANN, text: 'flooded 1' });
  const world = await worldFor(line, ANN);
  const [plot] = world.plots;
  if (!plot) throw new Error('Ann has no plot');
  const step = stepFor(planPlot(plot.season, world.rulebook, world.today), 'puddle');
  return step?.earliest == null ? null : isoDay(step.earliest);
}

async function reminded(line: Line, activity: string) {
  const rows = await line.db
    .selectFrom('reminders')
    .select('due_on')
    .where('season_id', '=', seasonOf('p1'))
    .where('activity', '=', activity)
    .where('why', '=', 'tomorrow')
    .execute();
  return rows.map((row) => row.due_on);
}

describe('a plot planned under the scheme’s own days of rotting', () => {
  test('gets the new dates, and is reminded by them', async () => {
    const [usual, own] = [await opened(''), await opened(ROT)];
    expect(await puddling(usual)).toBe('2027-03-24');
    expect(await puddling(own)).toBe('2027-04-01');
    // The day before: usually 14 to 21 days after flooding, here 22 to 25.
    expect(await reminded(usual, 'puddle')).toEqual([expect.stringMatching(/^2027-03-(2[3-9]|30)$/)]);
    expect(await reminded(own, 'puddle')).toEqual([expect.stringMatching(/^2027-0(3-31|4-0[123])$/)]);
  });

  test('is told the scheme’s source', async () => {
    const line = await opened(ROT);
    const [scheme] = line.schemes();
    const rot = scheme && line.rulebook(scheme).rules.find(({ name }) => name === 'rot');
    expect(rot?.sources).toEqual([{ text: 'Valley office: trials', mark: 'scheme' }]);
  });

  test('keeps them over a restart without the file, and loses them with a file that has none', async () => {
    const path = join(newFolder(onTestFinished), 'line.db');
    await (await opened(ROT, { path })).close();
    const again = await opened('', { path, schemeText: null });
    expect(await puddling(again)).toBe('2027-04-01');
    await again.close();
    const mended = await opened('', { path });
    expect(await puddling(mended)).toBe('2027-03-24');
  });
});

describe('the scheme’s book', () => {
  test('is made once, and is the default one where the scheme has no figures', async () => {
    const own = await opened(ROT);
    const [scheme] = own.schemes();
    if (!scheme) throw new Error('no scheme');
    expect(own.rulebook(scheme)).toBe(own.rulebook(scheme));
    expect(own.rulebook(scheme)).not.toBe(DEFAULT_RULEBOOK);
    const usual = await opened('');
    expect(usual.rulebook(usual.schemes()[0] ?? scheme)).toBe(DEFAULT_RULEBOOK);
  });

  test('is each scheme’s own on one line', async () => {
    const path = join(newFolder(onTestFinished), 'line.db');
    await (await opened(ROT, { path })).close();
    const other = VALLEY.replace('id: test-valley', 'id: other-valley').replace(
      'code: VALLEY',
      'code: OTHER',
    );
    const line = await opened('', { path, schemeText: other.replaceAll('+44770090000', '+44770090050') });
    const lowest = line
      .schemes()
      .map((scheme) => line.rulebook(scheme).rules.find(({ name }) => name === 'rot')?.lo);
    expect(line.schemes().map(({ world }) => world.id)).toEqual(['other-valley', 'test-valley']);
    expect(lowest).toEqual([14, 22]);
  });

  test('that is impossible stops the start and leaves nothing behind', async () => {
    const path = join(newFolder(onTestFinished), 'line.db');
    const error = await opened(ROT.replace('lo: 22', 'lo: 27'), { path }).catch((reason: unknown) => reason);
    expect(error).toBeInstanceOf(SchemeFileError);
    expect((error as SchemeFileError).message).toMatch(
      /^line \d+, rulebook, rules, 1: rot: at least 27 days/,
    );
    await expect(opened('', { path, schemeText: null })).rejects.toThrow('the database holds no scheme');
  });

  test('that was kept by a release with other rules stops the start and says what to mend', async () => {
    const path = join(newFolder(onTestFinished), 'line.db');
    await (await opened(ROT, { path })).close();
    const rulebook = {
      ...DEFAULT_RULEBOOK,
      rules: DEFAULT_RULEBOOK.rules.filter(({ name }) => name !== 'rot'),
    };
    const start = opened('', { path, schemeText: null, rulebook });
    await expect(start).rejects.toThrow(
      /kept for Test Valley no longer fits.*\n.*rules, 1, rule: the rulebook has no rule "rot"/,
    );
  });
});

describe('what a season knows of its place', () => {
  const RAIN = 'rainMm: [0, 0, 10, 40, 90, 120, 200, 210, 150, 60, 5, 0]';
  const PLACE = `restDays: { weekdays: [friday], days: ["+4"] }\nclimate: { ${RAIN}, source: a station }\n`;

  test('days of rest and weather of the scheme, the rains of the block, on every plot', async () => {
    const text = `${VALLEY.replace('name: Upper,', 'name: Upper, rainFrom: "2027-03-28",')}${PLACE}`;
    const line = await opened('', { schemeText: text });
    const plots = [...(await worldFor(line, ANN)).plots, ...(await worldFor(line, BEN)).plots];
    expect(plots).toHaveLength(3);
    for (const { season } of plots) {
      expect(season.restDays).toEqual({ weekdays: [5], days: [day('2027-03-14')] });
      expect(season.climate).toEqual({
        rainMm: [0, 0, 10, 40, 90, 120, 200, 210, 150, 60, 5, 0],
        source: 'a station',
      });
      expect(season.rainFrom).toBe(day('2027-03-28'));
    }
  });

  test('nothing where the file says nothing, nor where a scheme was stored before there was such a thing', async () => {
    const line = await opened('');
    const row = await line.db.selectFrom('schemes').select('settings').executeTakeFirstOrThrow();
    expect(Object.keys(JSON.parse(row.settings) as object)).toEqual([
      'languages',
      'officer',
      'quiet',
      'remindFromMinute',
    ]);
    for (const { season } of (await worldFor(line, ANN)).plots) {
      for (const key of ['restDays', 'climate', 'rainFrom']) expect(season).not.toHaveProperty(key);
    }
  });

  test('a block whose rains are taken out of the file has none', async () => {
    const path = join(newFolder(onTestFinished), 'line.db');
    const text = VALLEY.replace('name: Upper,', 'name: Upper, rainFrom: "2027-03-28",');
    await (await opened('', { path, schemeText: text })).close();
    const line = await opened('', { path });
    expect((await worldFor(line, ANN)).plots[0]?.season).not.toHaveProperty('rainFrom');
  });
});

test('who joins in a block that lives on rain grows a plot that does', async () => {
  const text = TRACTORS.replace('name: Upper,', 'name: Upper, way: { water: rain-fed, nursery: dry-bed },');
  const line = await opened('', { schemeText: text });
  const stranger = '+447700900077';
  const says = ['join valley', '1', 'Nala', '1', '0.3 ha', 'tractor', '120', 'yes'];
  for (const [index, words] of says.entries())
    await takeText(line, { carrierId: `j${index}`, from: stranger, text: words });
  const [plot] = (await worldFor(line, stranger)).plots;
  expect(plot?.season.way).toEqual({
    water: 'rain-fed',
    tillage: 'two-wheel',
    establishment: 'transplant',
    nursery: 'dry-bed',
    ripens: 'by-days',
  });
});
