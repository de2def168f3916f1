import { describe, expect, onTestFinished, test } from 'vitest';
import { parseDay } from '../../src/plan/day.ts';
import { forgetPerson } from '../../src/store/forget.ts';
import { loadPhone } from '../../src/store/load-phone.ts';
import { loadSchemes } from '../../src/store/load-schemes.ts';
import type { Db } from '../../src/store/open.ts';
import { renamePerson, setLanguage } from '../../src/store/people.ts';
import { plantScheme } from '../../src/store/plant-scheme.ts';
import { changeSeason } from '../../src/store/seasons.ts';
import { SchemeFileError, seedOfFile } from '../../src/sweeps/seed-of-file.ts';
import { DATABASES } from '../support/databases.ts';
import { DAY_MS, NOON_MS } from '../support/test-line.ts';
import { ANN, BEN, CYN_AND_DAN, seasonOf, VALLEY } from '../support/valley-scheme.ts';

async function plant(db: Db, text: string, nowMs = NOON_MS) {
  return plantScheme(db, await seedOfFile(db, text, nowMs));
}

async function everything(db: Db) {
  const tables = ['schemes', 'blocks', 'people', 'phones', 'phone_people', 'plots', 'seasons'] as const;
  return Promise.all(tables.map((table) => db.selectFrom(table).selectAll().execute()));
}

describe.each(DATABASES)('$name', ({ open }) => {
  test('planting the same file again changes nothing', async () => {
    const db = await open(onTestFinished);
    expect(await plant(db, VALLEY)).toBe('planted');
    const before = await everything(db);
    expect(await plant(db, VALLEY)).toBe('unchanged');
    expect(await plant(db, `${VALLEY}\n# a remark`)).toBe('unchanged');
    expect(await everything(db)).toEqual(before);
  });

  test('an edited file updates what it changed and leaves what growers said themselves', async () => {
    const db = await open(onTestFinished);
    await plant(db, VALLEY);
    await renamePerson(db, 'test-valley/ann', 'Anna');
    await setLanguage(db, 'test-valley/ben', 'fr');
    await changeSeason(db, seasonOf('p1'), { varietyDays: 135 });
    await plant(
      db,
      VALLEY.replace('languages: [en]', 'languages: [en, fr]')
        .replace('lang: en, phones: ["+447700900001"]', 'lang: fr, phones: ["+447700900051"]')
        .replace('areaHa: 0.4', 'areaHa: 0.45')
        .replace('remindAt: "17:00"', 'remindAt: "16:00"'),
    );
    const ann = await loadPhone(db, '+447700900051');
    expect(ann.people).toMatchObject([{ name: 'Anna', lang: 'fr' }]);
    expect(ann.plots[0]?.season).toMatchObject({ areaHa: 0.45, varietyDays: 135 });
    expect((await loadPhone(db, ANN)).people).toEqual([]);
    expect((await loadPhone(db, BEN)).people).toMatchObject([{ name: 'Ben', lang: 'fr' }]);
    expect((await loadSchemes(db))[0]?.settings.remindFromMinute).toBe(16 * 60);
  });

  test('the file wins where it changes the very field that a grower changed', async () => {
    const db = await open(onTestFinished);
    await plant(db, VALLEY);
    await changeSeason(db, seasonOf('p1'), { varietyDays: 135 });
    await plant(db, VALLEY.replace('areaHa: 0.4, varietyDays: 120', 'areaHa: 0.4, varietyDays: 100'));
    expect((await loadPhone(db, ANN)).plots[0]?.season.varietyDays).toBe(100);
  });

  test('a forgotten person is not brought back by the file', async () => {
    const db = await open(onTestFinished);
    await plant(db, VALLEY);
    await forgetPerson(db, 'test-valley/ann', 'none');
    await plant(db, VALLEY.replace('name: Ann,', 'name: Annie,'));
    expect(await loadPhone(db, ANN)).toMatchObject({ row: null, people: [], plots: [] });
    expect(JSON.stringify(await everything(db))).not.toMatch(/Ann|7700900001"/);
  });

  test('two schemes may use the same ids', async () => {
    const db = await open(onTestFinished);
    await plant(db, VALLEY);
    const second = VALLEY.replace('id: test-valley', 'id: other-valley').replace(
      'code: VALLEY',
      'code: OTHER',
    );
    await plant(db, second.replaceAll('+44770090000', '+44770090050'));
    expect((await loadPhone(db, ANN)).plots).toHaveLength(2);
    expect((await loadPhone(db, '+447700900501')).plots.map((plot) => plot.id)).toEqual([
      'other-valley/p1',
      'other-valley/p2',
    ]);
  });

  test('days counted from the first loading stay where they are on a later start', async () => {
    const db = await open(onTestFinished);
    const text = VALLEY.replace('from: "2027-03-25"', 'from: "+15"');
    await plant(db, text);
    expect(await plant(db, text, NOON_MS + 30 * DAY_MS)).toBe('unchanged');
    expect((await loadSchemes(db))[0]?.world.blocks[0]?.target.from).toBe(parseDay('2027-03-25'));
  });

  test('a file with mistakes is refused whole, with every mistake', async () => {
    const db = await open(onTestFinished);
    const broken = VALLEY.replace('areaHa: 0.4', 'areaHa: -1').replace('owner: ben', 'owner: nobody');
    const error = await plant(db, broken).catch((reason: unknown) => reason);
    expect(error).toBeInstanceOf(SchemeFileError);
    expect((error as SchemeFileError).message).toMatch(/areaHa/);
    expect(await loadSchemes(db)).toEqual([]);
  });

  test('people who share a phone share its plots, by number', async () => {
    const db = await open(onTestFinished);
    await plant(db, VALLEY);
    const facts = await loadPhone(db, CYN_AND_DAN);
    expect(facts.people.map((person) => person.name)).toEqual(['Cyn', 'Dan']);
    expect(facts.plots.map((plot) => [plot.number, plot.label])).toEqual([
      ['1', 'A-4'],
      ['2', 'A-5'],
    ]);
  });
});
