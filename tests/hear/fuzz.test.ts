/** Random and mutated texts in every language: none throws, none is recorded that names no work. */
import { describe, expect, test, vi } from 'vitest';
import { foldWord } from '../../src/hear/fold.ts';
import { hear } from '../../src/hear/hear.ts';
import type { Lexicon } from '../../src/hear/lexicon.ts';
import { LANGUAGES, type Language, reportsIn, TODAY } from './languages.ts';

vi.setConfig({ testTimeout: 300_000 });

/** The whole number takes a quarter of an hour: `FUZZ_TEXTS=200000 npx vitest run tests/hear/fuzz.test.ts`. */
const TEXTS = Number(process.env['FUZZ_TEXTS'] ?? 20_000);
const WORK = new Set(['act', 'verb', 'thing']);
const ODD = [
  '🌾',
  '\u200b',
  '\ud800',
  '٣',
  '৩',
  '½',
  "'",
  '-',
  '/',
  '.',
  '?',
  '!',
  '\n',
  '#',
  '০',
  'é',
  'ß',
  'ı',
];

/** A small random generator with a seed, so that a failure comes again (mulberry32, a public-domain recurrence). */
function randomOf(seed: number) {
  let state = seed;
  const next = () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
  const below = (n: number) => Math.floor(next() * n);
  return { below, pick: <T>(all: readonly T[]): T => all[below(all.length)]! };
}
type Random = ReturnType<typeof randomOf>;

function word(random: Random, letters: readonly string[]): string {
  return Array.from({ length: 1 + random.below(10) }, () => random.pick(letters)).join('');
}

function mutated(text: string, random: Random, letters: readonly string[]): string {
  const chars = [...text];
  for (let times = 1 + random.below(4); times > 0; times--) {
    const at = random.below(chars.length + 1);
    const kind = random.below(7);
    if (kind === 0) chars.splice(at, 1);
    else if (kind === 1) chars.splice(at, 0, random.pick(letters));
    else if (kind === 2) chars.splice(at, 1, random.pick(letters));
    else if (kind === 3) chars.splice(at, 2, chars[at + 1] ?? '', chars[at] ?? '');
    else if (kind === 4) chars.splice(at, 1, random.pick(ODD));
    else if (kind === 5) chars.splice(at, 0, String(random.below(400)));
    else chars.splice(at, random.below(8));
  }
  return chars.join('');
}

/** Words that name work, or a thing that work is done with; and the same without the letters that people drop or double. */
function workWords(lexicon: Lexicon): readonly string[] {
  const words = new Set<string>();
  const walk = (branch: Lexicon['phrases'], path: readonly string[]) => {
    if (branch.senses.some(({ role }) => WORK.has(role))) for (const one of path) words.add(one);
    for (const [next, below] of branch.next) walk(below, [...path, next]);
  };
  walk(lexicon.phrases, []);
  return [...words].filter((one) => one.length > 1);
}

/** Plain Levenshtein distance, with a swap of neighbours as one: written out for this test alone. */
function distance(a: string, b: string): number {
  const d = Array.from({ length: a.length + 1 }, (_, i) => [i, ...Array<number>(b.length).fill(0)]);
  for (let j = 0; j <= b.length; j++) d[0]![j] = j;
  for (let i = 1; i <= a.length; i++)
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      d[i]![j] = Math.min(d[i - 1]![j]! + 1, d[i]![j - 1]! + 1, d[i - 1]![j - 1]! + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        d[i]![j] = Math.min(d[i]![j]!, d[i - 2]![j - 2]! + 1);
    }
  return d[a.length]![b.length]!;
}

const bare = (text: string) => text.replace(/[aeiou]|(.)(?=\1)/gu, '');

interface WorkWords {
  readonly all: ReadonlySet<string>;
  readonly bare: ReadonlySet<string>;
  readonly list: readonly string[];
}

const worded = (list: readonly string[]): WorkWords => ({
  all: new Set(list),
  bare: new Set(list.filter((one) => one.length > 3).map(bare)),
  list,
});

/** Whether some stretch of the text is a word of work: as it is, joined to others, shortened, or with two slips. */
function namesWork(text: string, words: WorkWords, lexicon: Lexicon): boolean {
  const tokens = text
    .split(/[^\p{L}\p{M}]+/u)
    .map(foldWord)
    .filter((one) => one !== '');
  const spelt = tokens.flatMap((token) => lexicon.spellings.get(token) ?? []);
  if ([...tokens, ...spelt].some((one) => words.all.has(one) || words.bare.has(bare(one)))) return true;
  const joined = foldWord(text.replace(/[\s'-]+/gu, ''));
  if (words.list.some((one) => one.length > 2 && joined.includes(one))) return true;
  const isNear = (token: string, one: string) =>
    one.length > 3 && Math.abs(token.length - one.length) <= 2 && distance(token, one) <= 2;
  return tokens.some((token) => words.list.some((one) => isNear(token, one)));
}

function textsOf(
  { phrases, refusals, lexicon }: Language,
  count: number,
): { random: Random; texts: string[] } {
  const random = randomOf(20_270_310);
  const corpus = [
    ...(phrases?.groups ?? []).flatMap((group) => group.texts),
    ...(refusals?.neverReport ?? []),
    ...Object.values(refusals?.unclear ?? {}).flat(),
  ];
  const letters = [...new Set([...corpus.join('')])].filter((one) => /\p{L}|\p{M}/u.test(one));
  const ours = [...lexicon.words];
  const texts = Array.from({ length: count }, (_, i) => {
    if (i % 4 === 0)
      return Array.from({ length: 1 + random.below(7) }, () => word(random, letters)).join(' ');
    if (i % 4 === 1) return Array.from({ length: 1 + random.below(9) }, () => random.pick(ours)).join(' ');
    return mutated(random.pick(corpus), random, letters);
  });
  return { random, texts };
}

describe.each([...LANGUAGES])('$lang', (language) => {
  test('random and mutated texts', () => {
    const { lexicon } = language;
    const words = worded(workWords(lexicon));
    const { texts } = textsOf(language, TEXTS / LANGUAGES.length);
    let reports = 0;
    const unsaid: string[] = [];
    for (const text of texts) {
      const heard = hear(text, lexicon, TODAY);
      if ((heard.unclear === null) !== heard.readings.length > 0) unsaid.push(`neither: ${text}`);
      if (reportsIn(heard).length === 0) continue;
      reports += 1;
      if (!namesWork(text, words, lexicon))
        unsaid.push(`${JSON.stringify(text)} ${JSON.stringify(heard.readings)}`);
    }
    expect(unsaid).toEqual([]);
    // Reports do come of mutated phrases: otherwise nothing was tried.
    expect(reports).toBeGreaterThan(texts.length / 50);
  });

  test('letters by chance are no report', () => {
    const { lexicon } = language;
    const words = worded(workWords(lexicon));
    const { texts } = textsOf(language, 4000);
    const random = texts.filter((_, i) => i % 4 === 0);
    const without = random.filter((text) => !namesWork(text, words, lexicon));
    expect(without.length).toBeGreaterThan(100);
    expect(without.filter((text) => reportsIn(hear(text, lexicon, TODAY)).length > 0)).toEqual([]);
  });
});
