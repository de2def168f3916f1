import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { languagesIn, makeSheet } from '../../src/commands/sheet.ts';
import { sampleTexts } from '../../src/say/sampler.ts';
import { SAMPLES } from '../../src/say/samples.ts';
import { sheetPage } from '../../src/say/sheet.ts';
import { faultOf } from './fault-of.ts';
import { ENGLISH_MESSAGES, english, french } from './fixtures.ts';

const LOCALES = fileURLToPath(new URL('../../locales/', import.meta.url));

const samples = {
  ...SAMPLES,
  depthCm: 12.5,
  by: { day: 20886 },
  text: 'a | b',
  activity: { longestOf: 'activity' },
};

describe('sample texts', () => {
  const textIn = (catalogue: ReturnType<typeof english>, key: string, form = '') =>
    sampleTexts(catalogue, samples).find((row) => row.key === key && row.form === form)?.text;

  test('hold the longest word and the longest day of each language', () => {
    expect(textIn(english(), 'done')).toMatch(/^Plot \S+ levelled roughly \w{3} \d\d \w{3}\.$/);
    expect(textIn(french(), 'done')).toMatch(/^Parcelle \S+ : planage grossier \w{3} \d\d \w{4}\.$/);
  });

  test('show every plural form with a count that takes it', () => {
    const forms = sampleTexts(french(), samples).filter((row) => row.key === 'alone');
    expect(forms.map((row) => `${row.form}: ${row.text}`)).toEqual([
      'one: 1 parcelle.',
      'many: 1000000 de parcelles.',
      'other: 28 parcelles.',
    ]);
  });

  test('have one for every message', () => {
    expect(new Set(sampleTexts(english(), samples).map((row) => row.key))).toEqual(
      new Set(english().messages.keys()),
    );
  });

  test('need a sample for every placeholder, and name all that lack one', () => {
    const catalogue = english({ a: '{{alpha}} {{beta}}', b: '{{gamma}}' });
    expect(faultOf(() => sampleTexts(catalogue, { beta: 1 }))).toMatchObject({
      code: 'missing-sample',
      names: ['alpha', 'gamma'],
    });
  });

  test('a message may have a sample of its own', () => {
    const catalogue = english({ a: '{{x}}', b: '{{x}}', c_one: '{{x}}', c_other: '{{x}}' });
    const texts = sampleTexts(catalogue, { x: 1, 'b.x': 2, 'c_one.x': 3 }).map((row) => row.text);
    expect(texts).toEqual(['1', '2', '3', '1']);
  });

  test('a longest text may hold what was found before it, never itself', () => {
    const catalogue = english({
      plot: 'Plot {{n}}',
      done: { ok: '{{plot}} done', again: '{{done}} again' },
      say: '{{done}}.',
    });
    const values = { n: 12, plot: { longestOf: 'plot' }, done: { longestOf: 'done' } };
    expect(sampleTexts(catalogue, values).at(-1)?.text).toBe('Plot 12 done.');
  });

  test('a longest text may be looked for under any name', () => {
    const catalogue = english({
      a: '{{x}}.',
      act: { p: { done: 'xx', todo: 'xxxxx' }, q: { done: 'xxx', todo: 'x {{x}}' } },
    });
    expect(sampleTexts(catalogue, { x: { longestOf: 'act.*.done' } })[0]?.text).toBe('xxx.');
  });
});

describe('the sheet', () => {
  const page = sheetPage(english(), sampleTexts(english(), samples), (phrase) => `heard ${phrase}`);

  test('opens with what its reader must know', () => {
    expect(page.split('\n')[0]).toBe('Read by a native speaker.');
    expect(sheetPage(french(), [], () => '').split('\n')[0]).toBe('Draft: not yet read by a native speaker.');
  });

  test('has a row for each text with its length and parts, and keeps a bar inside its cell', () => {
    expect(page).toContain('\n| depth | Depth 12.5 cm. | 14 | 1 |\n');
    expect(page).toContain('\n| say | a \\| b | 6 | 1 |\n');
    expect(page).toContain('\n| alone (one) | One plot. | 9 | 1 |\n');
  });

  test('reads back each phrase once', () => {
    const messages = { ...ENGLISH_MESSAGES, again: 'Send NEXT.', word: { seed: 'SEED SOAKED' } };
    const twice = sheetPage(
      english(messages),
      sampleTexts(english(messages), samples),
      (phrase) => `heard ${phrase}`,
    );
    expect(twice.match(/heard NEXT/g)).toHaveLength(1);
    expect(twice).toContain('\n| SEED SOAKED 3 | word.seed | heard SEED SOAKED 3 |\n');
    expect(page).toContain('\n| DATES | menu | heard DATES |\n');
    expect(page).toMatch(/\| PLOUGHED (\S+) \| menu \| heard PLOUGHED \1 \|/);
  });
});

const languages = languagesIn();

describe.runIf(languages.length > 0).each(languages)('locales/%s', (lang) => {
  test('every text is right: keys, placeholders, plurals, alphabet, spaces, words, length', () => {
    expect(makeSheet(lang).complaints).toEqual([]);
  });

  test('sheet.md is what the command writes today', () => {
    const path = `${LOCALES}${lang}/sheet.md`;
    expect(existsSync(path) ? readFileSync(path, 'utf8') : `no ${path}: run the sheet command`).toBe(
      makeSheet(lang).page,
    );
  });
});
