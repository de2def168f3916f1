/** Joining a scheme that counts in a unit of its own, through the real line on a real database. */
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { measure } from '../../src/say/parts.ts';
import type { Voice } from '../../src/sweeps/line.ts';
import type { OpenLine } from '../../src/sweeps/open-line.ts';
import { readVoices } from '../../src/sweeps/read-voices.ts';
import { realTalk } from '../../src/sweeps/real-talk.ts';
import { SchemeFileError } from '../../src/sweeps/seed-of-file.ts';
import { takeText } from '../../src/web/take-text.ts';
import { newFolder, testLine } from '../support/test-line.ts';
import { ANN, STRANGER, VALLEY } from '../support/valley-scheme.ts';

const TINS = 'areaUnit: { words: [tin, tins], m2: 500 }\n';
const VOICES = readVoices();

const opened = (more: string, parts: object = {}) =>
  testLine(onTestFinished, { talk: realTalk, voices: VOICES, schemeText: `${VALLEY}${more}`, ...parts });

let count = 0;

async function texted(line: OpenLine, text: string, from = STRANGER): Promise<string> {
  count += 1;
  return (await takeText(line, { carrierId: `unit${count}`, from, text })) ?? '';
}

/** Joins as far as the last question, which is returned. */
async function joining(line: OpenLine, plots: number, areas: string): Promise<string> {
  for (const text of ['JOIN VALLEY', 'yes', 'Nala Oduya', String(plots), areas, 'hoe'])
    await texted(line, text);
  return texted(line, '120');
}

async function areasOf(line: OpenLine): Promise<readonly number[]> {
  const rows = await line.db
    .selectFrom('plots')
    .select('area_ha')
    .where(
      'id',
      'not in',
      ['p1', 'p2', 'p3', 'p4', 'p5'].map((id) => `test-valley/${id}`),
    )
    .orderBy('number')
    .execute();
  return rows.map((row) => row.area_ha);
}

describe('joining with the unit', () => {
  test('keeps hectares, and tells both at the last question and with PLOTS', async () => {
    const line = await opened(TINS);
    const question = await joining(line, 2, '2 tins and 1 and half tin');
    expect(question).toBe(
      'Nala Oduya, plots 1 and 2 in block Upper: 1: 0.1 ha (2 tins) and 2: 0.075 ha (1.5 tins); hoe; variety of 120 days. Right? 1 yes. 2 no.',
    );
    await texted(line, '1');
    expect(await areasOf(line)).toEqual([0.1, 0.075]);
    expect(await texted(line, 'plots')).toBe(
      'Plot 1 (2 tins): 0.1 ha, nothing reported yet. Plot 2 (1.5 tins): 0.075 ha, nothing reported yet.',
    );
  });

  test('one is said with the first word; hectares and acres are taken as before', async () => {
    const line = await opened(TINS);
    const question = await joining(line, 3, '1 tin, 0.4 ha, 1 acre');
    expect(question).toContain(': 1: 0.05 ha (1 tin), ');
    expect(question).toContain('(1 tin), 2: 0.4 ha (8 tins) and 3: 0.4 ha (8.1 tins); ');
    await texted(line, 'yes');
    expect(await areasOf(line)).toEqual([0.05, 0.4, 0.4047]);
  });

  test.each(['2', '2 and 3 tins', '0 tins and 1 tin', '500 tins, 1 tin', 'two plots', '2 tins'])(
    'of two plots, "%s" is asked for again',
    async (areas) => {
      const line = await opened(TINS);
      for (const text of ['JOIN VALLEY', 'yes', 'Nala Oduya', '2']) await texted(line, text);
      expect(await texted(line, areas)).toBe('I need 2 areas, like 0.4 ha, 1 acre.');
      expect(await texted(line, '2 tins, 3 tins')).toMatch(/^How do you plough/);
    },
  );

  test('the longest last question stays within two parts; with many plots hectares do', async () => {
    const long = 'areaUnit: { words: [zomba, zombazombazombazomba], m2: 500 }\n';
    const line = await opened(long);
    const three = await joining(line, 3, '12.25 zomba, 11.25 zomba, 10.25 zomba');
    expect(three.match(/zombazombazombazomba/g)).toHaveLength(3);
    expect(measure(three).parts).toBeLessThanOrEqual(2);
    await texted(line, '2');
    const four = await joining(line, 4, '1 zomba, 2 zomba, 3 zomba, 4 zomba');
    expect(four).toContain('1: 0.05 ha, 2: 0.1 ha, 3: 0.15 ha and 4: 0.2 ha');
  });

  test('plots of the file are told in it too', async () => {
    const line = await opened(TINS);
    expect(await texted(line, 'plots', ANN)).toMatch(
      /^Plot 1 \(8 tins\): 0\.4 ha, .* Plot 2 \(5 tins\): 0\.25 ha, /,
    );
  });
});

describe('a scheme without a unit', () => {
  test('takes bare numbers as hectares, and no tin for an area of its own', async () => {
    const line = await opened('');
    expect(await joining(line, 2, '2 and 0.3')).toContain(': 1: 2 ha and 2: 0.3 ha; ');
    await texted(line, 'yes');
    expect(await areasOf(line)).toEqual([2, 0.3]);
    expect(await texted(line, 'plots')).toMatch(/^Plot 1: 2 ha, /);
  });

  test('asks again for an area too small to be kept', async () => {
    const line = await opened('');
    for (const text of ['JOIN VALLEY', 'yes', 'Nala Oduya', '1']) await texted(line, text);
    expect(await texted(line, '4 m2')).toBe('I need 1 area, like 0.4 ha or 1 acre.');
  });
});

describe('every language of the scheme', () => {
  /** A voice that hears as English does, and writes down which unit it was given. */
  function listening(lang: string, given: unknown[]): Voice {
    const [english] = VOICES;
    if (!english) throw new Error('no language is there');
    return {
      ...english,
      lang,
      hear: (text, today, unit) => {
        given.push(unit);
        return english.hear(text, today, unit);
      },
      details: (text, unit) => {
        given.push(unit);
        return english.details(text, unit);
      },
    };
  }

  test('hears with the unit', async () => {
    const [first, second]: [unknown[], unknown[]] = [[], []];
    const voices = [listening('en', first), listening('xx', second)];
    const schemeText = `${VALLEY}${TINS}`.replace('languages: [en]', 'languages: [en, xx]');
    const line = await opened('', { schemeText, voices });
    await texted(line, 'brabbelbrabbel');
    const unit = { words: ['tin', 'tins'], m2: 500 };
    expect(first).toEqual([unit, unit]);
    expect(new Set(second.map((one) => JSON.stringify(one)))).toEqual(new Set([JSON.stringify(unit)]));
  });
});

describe('the unit in the database', () => {
  test('is kept over a restart without the file, and gone with a file that has none', async () => {
    const path = join(newFolder(onTestFinished), 'line.db');
    await (await opened(TINS, { path })).close();
    const again = await opened('', { path, schemeText: null });
    expect(await texted(again, 'plots', ANN)).toContain('(8 tins)');
    await again.close();
    const mended = await opened('', { path });
    expect(await texted(mended, 'plots', ANN)).not.toContain('tins');
  });

  test('stops the start where a language has since taken its word', async () => {
    const path = join(newFolder(onTestFinished), 'line.db');
    await (await opened(TINS, { path })).close();
    const voices = VOICES.map((voice) => ({
      ...voice,
      whyTaken: (word: string) => (word === 'tins' ? 'already means something' : null),
    }));
    await expect(opened('', { path, schemeText: null, voices })).rejects.toThrow(
      /^the unit of area kept for Test Valley no longer fits; .*\n"tins" already means something in the language "en"$/,
    );
  });

  test('a word that is taken stops the start with its place', async () => {
    const unfit = opened(TINS.replace('tins', 'hands'));
    await expect(unfit).rejects.toThrow(SchemeFileError);
    await expect(unfit).rejects.toThrow(
      /^line \d+, areaUnit, words, 2: "hands" already means something in the language "en"$/,
    );
  });
});
