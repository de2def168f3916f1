/** The season in every language: the same work is recorded as in English, and nothing is misunderstood. */
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { readMessage } from '../../src/commands/read-message.ts';
import { playSeason } from '../../src/commands/season.ts';
import type { SeasonEnd } from '../../src/commands/season-end.ts';
import { languagesIn, loadCatalogue } from '../../src/commands/sheet.ts';
import { measure } from '../../src/say/parts.ts';

const file = (path: string) => readFileSync(new URL(`../../scripts/demo/${path}`, import.meta.url), 'utf8');
const SCRIPT = file('season.yaml').replace(/^days: \d+$/m, 'days: 185');
/** She joins, tells one piece of work, and is heard of no more. */
const JOINED = ['Nala 1', 'Nala 2'];
/** What `unclear` is said once, to a day that there is not. */
const INTENDED = ['unclear.impossible-date'];

interface Played {
  readonly rows: readonly string[];
  readonly end: SeasonEnd;
}

async function played(lang: string): Promise<Played> {
  const rows: string[] = [];
  const end = await playSeason({ script: SCRIPT, lang }, (row) => rows.push(...row.split('\n')));
  return { rows, end };
}

function harvested({ reports }: SeasonEnd): readonly string[] {
  const cut = reports.filter(({ activity, stage }) => activity === 'harvest' && stage === 'finished');
  return [...new Set(cut.map(({ plot }) => plot))].sort();
}

/** The texts of one mark. */
const texts = ({ rows }: Played, mark: string) =>
  rows.flatMap((row) => new RegExp(`^[\\d: ]{5} .{8} \\${mark} (.*)$`).exec(row)?.[1] ?? []);

let english: Played;
beforeAll(async () => {
  english = await played('en');
}, 180_000);

test('in English every plot is harvested', () => {
  expect(harvested(english.end)).toEqual(english.end.plots.filter((plot) => !JOINED.includes(plot)));
  expect(english.end.reports.length).toBeGreaterThan(400);
});

describe.each(languagesIn().filter((lang) => lang !== 'en'))('in %s', (lang) => {
  const catalogue = loadCatalogue(lang);
  let season: Played;
  beforeAll(async () => {
    season = await played(lang);
  }, 180_000);

  test('the same is recorded as in English, and every plot is harvested', () => {
    expect(season.end.reports).toEqual(english.end.reports);
    expect(harvested(season.end)).toEqual(harvested(english.end));
  });

  test('there is no fault, and every text is understood as in English', () => {
    expect(season.rows.filter((row) => row.includes('FAULT'))).toEqual([]);
    const keys = [...catalogue.messages.keys()].filter((key) => key.startsWith('unclear.'));
    const said = texts(season, '<').flatMap((text) =>
      keys.filter((key) => key !== 'unclear.that-day' && readMessage(key, text, catalogue) !== null),
    );
    expect(said).toEqual(INTENDED);
    expect(texts(season, '>')).toHaveLength(texts(english, '>').length);
    expect(texts(season, '*')).toHaveLength(texts(english, '*').length);
  });

  test('the stranger is spoken to in that language from the first word', () => {
    const [greeted, consent] = ['menu.stranger', 'join.consent'].map((key) =>
      texts(season, '<').findIndex((text) => readMessage(key, text, catalogue) !== null),
    );
    expect(greeted).toBeGreaterThan(0);
    expect(consent).toBe((greeted ?? 0) + 1);
  });

  test('reminders take one part and replies two; where an alphabet is dear, one more, and a few replies yet another', () => {
    const dear = catalogue.calendar.alphabet === 'ucs2' ? 1 : 0;
    const longer = (mark: string, parts: number) =>
      texts(season, mark).filter((text) => measure(text).parts > parts);
    expect(longer('*', 1 + dear)).toEqual([]);
    expect(longer('<', 2 + 2 * dear)).toEqual([]);
    expect(longer('<', 2 + dear).length).toBeLessThanOrEqual(10 * dear);
  });
});

test('the demo scheme speaks every language that there is', () => {
  const { languages } = parse(file('orrowe-valley.yaml')) as { languages: readonly string[] };
  expect([...languages].sort()).toEqual(languagesIn());
  expect(languages[0]).toBe('en');
});
