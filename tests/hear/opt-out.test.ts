/** Words and requests that end the texts, on a phone of each language, and texts that only contain such words. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { hear } from '../../src/hear/hear.ts';
import type { Lexicon } from '../../src/hear/lexicon.ts';
import { wordSenses } from '../../src/hear/word-senses.ts';
import { isWorkRole } from '../../src/hear/work-roles.ts';
import { LANGUAGES, type Language, TODAY } from './languages.ts';

/** Words that carriers act on themselves (their public documentation). */
const CARRIERS = ['stop', 'stopall', 'unsubscribe', 'cancel', 'end', 'quit', 'revoke', 'optout'];
const FRENCH = ['arret', 'arrêt', 'stopper', 'desabonner', 'désabonner'];
const SWAHILI = ['acha', 'simamisha', 'sitaki'];
const EVERYWHERE = [...CARRIERS, ...FRENCH, ...SWAHILI];
const BENGALI = ['বন্ধ', 'থামুন', 'থামেন', 'থামান', 'স্টপ', 'bondho', 'thamun'];

const fullWidth = (word: string) =>
  word.replace(/[!-~]/g, (char) => String.fromCodePoint((char.codePointAt(0) ?? 0) + 0xfee0));
const mixed = (word: string) =>
  [...word].map((char, at) => (at % 2 === 0 ? char : char.toUpperCase())).join('');

/** One word in every writing. */
const WRITINGS: Readonly<Record<string, (word: string) => string>> = {
  'as it is': (word) => word,
  'in capitals': (word) => word.toUpperCase(),
  'with one capital': (word) => word.slice(0, 1).toUpperCase() + word.slice(1),
  'in mixed letters': mixed,
  'between spaces': (word) => `  ${word}   `,
  'between lines': (word) => `\n\r\n${word}\r\n\n`,
  'between hard spaces': (word) => `\u00a0${word}\u202f\u00a0`,
  'with a full stop': (word) => `${word}.`,
  'with marks': (word) => `${word} !!!`,
  'with three dots': (word) => `${word}…`,
  'with a comma before': (word) => `, ${word}`,
  'in quotes': (word) => `'${word}'`,
  'in double quotes': (word) => `"${word}"`,
  'in curly quotes': (word) => `“${word}”`,
  'in French quotes': (word) => `«\u00a0${word}\u00a0»`,
  'in brackets': (word) => `(${word.toUpperCase()})`,
  'in stars': (word) => `*${word}*`,
  'with hands': (word) => `${word} 🙏🏾🙏🏾`,
  'behind a sign': (word) => `⛔️ ${word}`,
  'in full-width letters': fullWidth,
  'with accents composed': (word) => word.normalize('NFC'),
  'with accents decomposed': (word) => word.normalize('NFD'),
  'with nothing to be seen in it': (word) => `\ufeff${[...word].join('\u2060')}\u200e`,
  twice: (word) => `${word} ${word}`,
};

/** Letter by letter. */
const SPELT = [' ', '.', '-', ' . ', '  '];
/** Long words with a letter missed, doubled, changed or swapped. */
const SLIPS = [
  'unsuscribe',
  'UNSUBSCIBE',
  'unsubcribe',
  'unsubscrieb',
  'desaboner',
  'désabonnner',
  'simamsha',
  'simamishaa',
];
/** Other words that are as near to one of these, or to a short one. */
const NO_SLIPS = [
  'subscribe',
  'resubscribe',
  'réabonner',
  'stup',
  'stomp',
  'cancle',
  'quite',
  'edn',
  'sitakii',
];

/** A name behind the word. */
const SIGNED: Readonly<Record<string, (word: string) => string>> = {
  'with a name below': (word) => `${word}\nDembe`,
  'with two names below': (word) => `${word}\n- Dembe Orowa.`,
  'with a name behind': (word) => `${word} - Dembe`,
  'with a name behind a comma': (word) => `${word.toUpperCase()}, Dembe`,
  'with two names behind a comma': (word) => `${word}, Dembe Orowa`,
};

/** Words and phrases of one word that stand for work, things, troubles, rain and units, as listed; not grown into every form. */
function workWords({ list }: Language): readonly string[] {
  const plain = { ...list, patterns: { plain: list.patterns.plain }, loanPatterns: {} };
  const work = wordSenses(plain as typeof list).filter(
    ({ phrase, sense }) =>
      isWorkRole(sense.role) && WEIGHTY.has(sense.role) && /^\p{L}[\p{L}\p{M}]+$/u.test(phrase),
  );
  return [...new Set(work.map(({ phrase }) => phrase))];
}

const WEIGHTY: ReadonlySet<string> = new Set([
  'act',
  'verb',
  'thing',
  'trouble',
  'troubleAlone',
  'troubleThing',
  'rain',
  'unit',
]);
/** Words of work that order the texts to end too: "take me off", "do stop", "stop, enough" (and a bus). */
const ALSO_ENDS: ReadonlySet<string> = new Set([
  'nitoe',
  'niondoe',
  'basi',
  'koro',
  'koren',
  'korun',
  'bandho',
]);

interface Texts {
  readonly requests: readonly string[];
  readonly others: readonly string[];
  /** Questions how to end the texts, and questions how to end other things. */
  readonly how: readonly string[];
  readonly otherHow: readonly string[];
}

const textsOf = (lang: string): Texts =>
  parse(readFileSync(new URL(`opt-out/${lang}.yaml`, import.meta.url), 'utf8')) as Texts;

const STOP = { readings: [{ kind: 'account', what: 'stop', assumed: [] }], unclear: null };
const heard = (lexicon: Lexicon, text: string) => hear(text, lexicon, TODAY);

/** Texts that are not read as a request to stop. */
const notStopped = (lexicon: Lexicon, texts: readonly string[]) =>
  texts.filter((text) => JSON.stringify(heard(lexicon, text)) !== JSON.stringify(STOP));

describe.each(LANGUAGES)('on a phone in $lang', ({ lang, lexicon }) => {
  // In Bengali "acha" is "fine", an everyday answer: there it ends nothing.
  const words = lang === 'bn' ? [...EVERYWHERE.filter((word) => word !== 'acha'), ...BENGALI] : EVERYWHERE;

  test.each(Object.entries(WRITINGS))('every word that ends the texts, %s', (_, write) => {
    expect(notStopped(lexicon, words.map(write))).toEqual([]);
  });

  test.each(Object.entries(SIGNED))('every word that ends the texts, %s', (_, write) => {
    expect(notStopped(lexicon, words.map(write))).toEqual([]);
  });

  test.each(SPELT)(
    'every word of Latin letters that ends the texts, letter by letter with "%s" between',
    (between) => {
      const spelt = words.filter((word) => /^[a-z]+$/.test(word)).map((word) => [...word].join(between));
      expect(notStopped(lexicon, [...spelt, ...spelt.map((text) => text.toUpperCase())])).toEqual([]);
      const beside = spelt.flatMap((text) => [`${text} plot 3`, `${text} ${between} b`, `${text} pump`]);
      expect(notStopped(lexicon, beside)).toEqual(beside);
    },
  );

  test('long words with a slip; no short word, and no other word', () => {
    expect(notStopped(lexicon, SLIPS)).toEqual([]);
    expect(notStopped(lexicon, NO_SLIPS)).toEqual(NO_SLIPS);
    const beside = SLIPS.map((word) => `${word} pump`);
    expect(notStopped(lexicon, beside)).toEqual(beside);
  });

  test.each(LANGUAGES)('beside a word of work of $lang none of them ends anything', (other) => {
    const work = workWords(other).filter((word) => !ALSO_ENDS.has(word));
    expect(work.length).toBeGreaterThan(100);
    const ends = ['STOP', 'end', 'Cancel', 'quit'];
    const texts = work.map((word, at) => `${ends[at % ends.length]} ${word}`);
    expect(texts.filter((text) => !notStopped(lexicon, [text]).includes(text))).toEqual([]);
  });

  test('asks how to end the texts, and how to end other things', () => {
    const { how, otherHow } = textsOf(lang);
    expect(how.length).toBeGreaterThan(5);
    const help = { readings: [{ kind: 'ask', about: 'help', plots: [], assumed: [] }], unclear: null };
    for (const text of how) expect(heard(lexicon, text), text).toEqual(help);
    expect(otherHow.length).toBeGreaterThan(2);
    for (const text of otherHow) {
      const { readings } = heard(lexicon, text);
      expect(
        readings.filter((one) => 'about' in one && one.about === 'help'),
        text,
      ).toEqual([]);
      expect(
        readings.filter(({ kind }) => kind === 'account' || kind === 'trouble'),
        text,
      ).toEqual([]);
    }
  });

  test('a line of work below the word makes it something else', () => {
    const worked = words.flatMap((word) => [
      `${word}\nPlough 3`,
      `${word}\n3`,
      `${word}\nTractor`,
      `${word} - 3`,
    ]);
    expect(worked.filter((text) => !notStopped(lexicon, [text]).includes(text))).toEqual([]);
  });

  test('a word beside a figure, a plot or work is none', () => {
    const beside = words.flatMap((word) => [`${word} 3`, `2 ${word}`, `${word} plot 3`, `${word} pump`]);
    expect(beside.filter((text) => !notStopped(lexicon, [text]).includes(text))).toEqual([]);
  });

  test('plain requests', () => {
    const { requests } = textsOf(lang);
    expect(requests.length).toBeGreaterThan(30);
    expect(notStopped(lexicon, requests)).toEqual([]);
    expect(
      notStopped(
        lexicon,
        requests.map((text) => `${text.toUpperCase()} !`),
      ),
    ).toEqual([]);
  });

  test('texts that only contain such words', () => {
    const { others } = textsOf(lang);
    expect(others.length).toBeGreaterThan(40);
    const kinds = (text: string) => heard(lexicon, text).readings.map(({ kind }) => kind);
    expect(others.filter((text) => kinds(text).includes('account'))).toEqual([]);
  });

  test('a request about other things than texts is none', () => {
    const { requests } = textsOf(lang);
    const about = requests.map((text) => `${text} plot 3`);
    expect(about.filter((text) => !notStopped(lexicon, [text]).includes(text))).toEqual([]);
  });

  test.each(['START', 'UNSTOP', 'start.', '“Start”', 'Start 🙏'])('%s brings the texts back', (text) => {
    const start = { readings: [{ kind: 'account', what: 'start', assumed: [] }], unclear: null };
    expect(heard(lexicon, text)).toEqual(start);
  });

  test.each(['HELP', 'INFO', 'help!', 'Info.'])('%s asks what can be texted', (text) => {
    expect(heard(lexicon, text).readings).toMatchObject([{ kind: 'ask', about: 'help' }]);
  });

  test.each(['YES', 'yes.', 'Yes!!'])('%s is an answer', (text) => {
    expect(heard(lexicon, text).readings).toMatchObject([{ kind: 'answer', answer: 'yes' }]);
  });

  test('no word that carriers keep takes anything back', () => {
    const kinds = words.flatMap((word) => heard(lexicon, word).readings.map(({ kind }) => kind));
    expect(new Set(kinds)).toEqual(new Set(['account']));
  });
});
