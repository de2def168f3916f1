/** README's examples of field sums, texted to the real line in each of its languages: the same figures, within the parts. */
import { readFileSync } from 'node:fs';
import { expect, onTestFinished, test } from 'vitest';
import { play } from '../support/dialogue.ts';

const README = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
/** As in the columns of the table. */
const LANGUAGES = ['ENGLISH', 'FRANCAIS', 'KISWAHILI', 'বাংলা'];
const [MOST_PARTS, MOST_PARTS_UCS2] = [2, 3];

const rows = README.slice(README.indexOf('### Sums of the field by text'))
  .split('\n## ')[0]!
  .split('\n')
  .filter((row) => row.startsWith('| ') && row.includes('`'))
  .map((row) => [...row.matchAll(/`([^`]+)`/g)].map(([, text]) => text!));

/** What is texted before the sums. */
const PUDDLED = [
  'puddled 3 yesterday',
  'p3 mise en boue hier',
  'nimevuruga shamba 3 jana',
  'kal jomi 3 kada korsi',
];

/** The figures of an answer, without those of units and nutrients; dots and commas alike. */
const figures = (text: string) =>
  (text.replace(/\bm[23]\b|P2O5|K2O/g, '').match(/\d+(?:[.,]\d+)?/g) ?? []).map((figure) =>
    figure.replace(',', '.'),
  );

/** All examples of one language, in the order of the table, as one talk on one phone. */
async function answers(column: number): Promise<readonly { text: string; parts: number }[]> {
  const texts = [LANGUAGES[column]!, PUDDLED[column]!, ...rows.map((row) => row[column]!)];
  const dialogue = ['day 2027-03-10', ...texts.map((text) => `> ${text}`)].join('\n');
  const { out, faults } = await play(dialogue, onTestFinished);
  expect(faults).toEqual([]);
  return out.slice(-rows.length);
}

const without = (some: readonly string[], others: readonly string[]): string[] => {
  const left = [...others];
  return some.filter((one) => {
    const at = left.indexOf(one);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
};

test('README has an example of each sum in each language', () => {
  expect(rows.length).toBeGreaterThanOrEqual(13);
  expect(rows.every((row) => row.length === LANGUAGES.length)).toBe(true);
});

test('each is answered in every language, with the figures of the English answer, within its parts', async () => {
  const [english, ...others] = await Promise.all(LANGUAGES.map((_, column) => answers(column)));
  for (const [i, row] of rows.entries()) {
    const said = english![i]!;
    expect(said.text, row[0]).not.toMatch(/did not understand|What do you mean|Which plot/);
    expect(said.parts, said.text).toBeLessThanOrEqual(MOST_PARTS);
    for (const [column, answered] of others.entries()) {
      const other = answered[i]!;
      const most = LANGUAGES[column + 1] === 'বাংলা' ? MOST_PARTS_UCS2 : MOST_PARTS;
      expect(other.parts, other.text).toBeLessThanOrEqual(most);
      // The examples of an area are of different areas. What is said beside the sum may go where a language is longer.
      if (row[0]!.includes('acre')) continue;
      expect(without(figures(other.text), figures(said.text)), other.text).toEqual([]);
      const sum = figures(said.text.split(/ Level again| Days:| Care:| Next:/)[0]!);
      expect(without(sum, figures(other.text)), other.text).toEqual([]);
    }
  }
}, 120_000);

/** The longest surveys: level on a late day, uneven at nine spots, and far off; fertiliser with its caution. */
const LONG = ['2 3 2 3 2', '4 6 9 12 5 7 8 8 6', '2 25 3 30 4'];

test.each(LANGUAGES.map((language, column) => [language, column] as const))(
  'the longest answers in %s keep to their parts',
  async (language, column) => {
    const survey = rows[0]![column]!.replace(/4 6 9 12 5$/, '');
    const nutrients = rows.find(([english]) => english === 'nutrients plot 3')![column]!;
    const texts = [nutrients, ...LONG.flatMap((depths) => [survey + depths, 'undo'])];
    for (const day of ['2027-03-10', '2027-03-26']) {
      const dialogue = [`day ${day}`, ...[language, PUDDLED[column]!, ...texts].map((text) => `> ${text}`)];
      const { out, faults } = await play(dialogue.join('\n'), onTestFinished);
      expect(faults).toEqual([]);
      const most = language === 'বাংলা' ? MOST_PARTS_UCS2 : MOST_PARTS;
      for (const { text, parts } of out.filter(({ reminder }) => !reminder).slice(2))
        if (!/^(Taken back|Je retire|Nimeondoa|Nimefuta|ফেরত|তুলে)/.test(text))
          expect(parts, text).toBeLessThanOrEqual(most);
    }
  },
  120_000,
);
