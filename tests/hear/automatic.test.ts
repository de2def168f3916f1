/** Texts that handsets and networks send by themselves, in each language, on a phone of every language; and texts of growers that look so. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { automaticMarks, isAutomatic, plainText } from '../../src/hear/automatic.ts';
import { hear } from '../../src/hear/hear.ts';
import { LANGUAGES, TODAY } from './languages.ts';

interface Texts {
  readonly automatic: readonly string[];
  readonly read: readonly string[];
}

const textsOf = (lang: string) =>
  parse(readFileSync(new URL(`automatic/${lang}.yaml`, import.meta.url), 'utf8')) as Texts;

const MARKS = LANGUAGES.map((one) => ({ ...one, markOf: automaticMarks(one.list.automatic) }));

/** As the line decides it on a phone of a language. */
function isSilent(text: string, lang: string): boolean {
  const own = MARKS.find((one) => one.lang === lang);
  if (!own) throw new Error(`${lang} is not spoken`);
  const inPhones = hear(text, own.lexicon, TODAY);
  return MARKS.some(({ markOf, lexicon }) => {
    const mark = markOf(text);
    return mark !== null && isAutomatic(mark, hear(text, lexicon, TODAY), inPhones);
  });
}

for (const { lang } of LANGUAGES) {
  const { automatic, read } = textsOf(lang);
  describe(`automatic texts of ${lang}`, () => {
    test('are many, and so are those that look like them', () => {
      expect(new Set(automatic).size).toBeGreaterThanOrEqual(30);
      expect(new Set(read).size).toBeGreaterThanOrEqual(40);
    });
    test.each(automatic)('"%s" is automatic, also on a phone of another language', (text) => {
      expect(LANGUAGES.filter((phone) => !isSilent(text, phone.lang)).map((phone) => phone.lang)).toEqual([]);
    });
    test.each(read)('"%s" is read', (text) => {
      expect(isSilent(text, lang)).toBe(false);
    });
  });
}

/** What growers text is never taken for an automatic text, whatever else the corpus says of it. */
describe.each(LANGUAGES)('the corpus of $lang', ({ lang, phrases, refusals }) => {
  test('has no automatic text', () => {
    const unclear = Object.values(refusals?.unclear ?? {}).flat();
    const all = [...(phrases?.groups ?? []).flatMap(({ texts }) => texts), ...unclear];
    const marked = all.filter((text) => MARKS.some(({ markOf }) => markOf(text) !== null));
    expect(marked.filter((text) => isSilent(text, lang))).toEqual([]);
  });
});

describe('marks', () => {
  const { markOf } = MARKS.find((one) => one.lang === 'en') ?? { markOf: () => null };
  test.each([
    ['a gap of up to six words', 'your message to a b c d was delivered', 'notice'],
    ['but of no more', 'your message to a b c d e was delivered', null],
    ['brackets, case and signs', '[AUTO-REPLY] x', 'opening'],
    ['a word at the beginning only', 'x auto reply', null],
    ['whole words', 'auto replying', null],
    ['nothing but phrases', 'Sorry!! I’m busy... I can’t talk', 'away'],
    ['a word more', 'Sorry, I can’t talk, rats', null],
    ['only what stands beside', 'sorry, busy now', null],
    ['nothing', '', null],
  ])('%s', (_, text, mark) => expect(markOf(text)).toBe(mark));

  test('of a language without any are never found', () => {
    const none = automaticMarks({ notices: [], opens: [], away: [], beside: [] });
    expect(['', 'auto reply', 'dear customer'].map(none)).toEqual([null, null, null]);
  });
});

test('texts are compared by their words alone', () => {
  expect(plainText(' [I’m]  BUSY! \n')).toBe(plainText('im busy'));
  expect(plainText('৩ নং।')).toBe('3 নং');
  expect(plainText('?!')).toBe('');
});
