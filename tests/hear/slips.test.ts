import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ACTIVITIES } from '../../src/agronomy/season.ts';
import { hear } from '../../src/hear/hear.ts';
import { slipsAllowed, slipsBetween } from '../../src/hear/nearness.ts';
import type { Heard } from '../../src/hear/reading.ts';
import { ENGLISH, LANGUAGES, reportsIn, TODAY } from './languages.ts';

/** Thousands of texts on a busy machine. */
const SLOW_MS = 60_000;
const LETTERS = 'abcdefghijklmnopqrstuvwxyz';

type Slip = {
  readonly kind: 'drop' | 'double' | 'swap' | 'change' | 'add';
  readonly at: number;
  readonly letter: string;
};

const slip: fc.Arbitrary<Slip> = fc.record({
  kind: fc.constantFrom('drop', 'double', 'swap', 'change', 'add'),
  at: fc.nat(30),
  letter: fc.constantFrom(...LETTERS),
});

function slipped(word: string, { kind, at, letter }: Slip): string {
  const i = at % word.length;
  const [head, tail] = [word.slice(0, i), word.slice(i)];
  switch (kind) {
    case 'drop':
      return head + tail.slice(1);
    case 'double':
      return head + tail[0] + tail;
    case 'swap':
      return head + (tail[1] ?? '') + tail[0] + tail.slice(2);
    case 'change':
      return head + letter + tail.slice(1);
    case 'add':
      return head + letter + tail;
  }
}

/** What is recorded: reports without what was assumed. */
const recorded = (heard: Heard) =>
  JSON.stringify(reportsIn(heard).map((reading) => ({ ...reading, assumed: [] })));

for (const { lang, lexicon, phrases } of LANGUAGES) {
  describe(`slips of the finger in ${lang}`, () => {
    const groups = phrases?.groups ?? [];
    const texts = groups.flatMap((group) => group.texts);
    const long = texts.filter((text) => /[a-z]{5}/i.test(text));
    const slippedText = fc.tuple(fc.constantFrom(...long), fc.nat(20), slip).map(([text, pick, one]) => {
      const words = [...text.matchAll(/[a-z]{5,}/gi)];
      const word = words[pick % words.length]!;
      return [
        text,
        text.slice(0, word.index) + slipped(word[0], one) + text.slice(word.index + word[0].length),
      ] as const;
    });

    /** A slip that makes another word of the lists has been typed as that word. */
    const isOther = (text: string, typed: string) =>
      typed
        .split(/[^a-z]+/i)
        .some(
          (word) =>
            !text.includes(word) &&
            (lexicon.words.has(word.toLowerCase()) || lexicon.known.has(word.toLowerCase())),
        );

    /** A slip that is itself near another word cannot always be told; one in two thousand is what is lived with. */
    test(
      'one slip in a long word records something else less than once in two thousand',
      () => {
        const sample = fc.sample(slippedText, { numRuns: 8000, seed: 20270310 });
        const tried = sample.filter(([text, typed]) => !isOther(text, typed));
        const wrong = tried.filter(([text, typed]) => {
          const read = hear(typed, lexicon, TODAY);
          return reportsIn(read).length > 0 && recorded(read) !== recorded(hear(text, lexicon, TODAY));
        });
        expect(wrong.length / tried.length, JSON.stringify(wrong)).toBeLessThan(1 / 2000);
      },
      SLOW_MS,
    );

    test(
      'most slips are forgiven',
      () => {
        const sample = fc.sample(slippedText, { numRuns: 1500, seed: 7 });
        const same = sample.filter(
          ([text, typed]) => recorded(hear(typed, lexicon, TODAY)) === recorded(hear(text, lexicon, TODAY)),
        );
        expect(same.length / sample.length).toBeGreaterThan(0.8);
      },
      SLOW_MS,
    );
  });
}

test.each([
  'ploughed 3 strday',
  'ploughed 3 last tnight',
  'ploughed plot 3 onday',
  'plankd plot 3',
  'noteploughed 3',
  'nto ploughed 3',
  'pplanted 1. weeded 2.',
  'flooded by iver plot 3',
])('"%s" is asked about: a slip may have changed the work, the day or a denial', (text) => {
  expect(reportsIn(hear(text, ENGLISH.lexicon, TODAY))).toEqual([]);
});

test('words of three letters are never forgiven', () => {
  expect([1, 2, 3].map(slipsAllowed)).toEqual([0, 0, 0]);
  expect([4, 6, 7, 12].map(slipsAllowed)).toEqual([1, 1, 2, 2]);
});

test('slips are counted as a slow and obvious reading of the definition counts them', () => {
  const slow = (a: string, b: string): number => {
    if (a === '' || b === '') return a.length + b.length;
    const same = a.at(-1) === b.at(-1);
    const costs = [
      slow(a.slice(0, -1), b) + 1,
      slow(a, b.slice(0, -1)) + 1,
      slow(a.slice(0, -1), b.slice(0, -1)) + (same ? 0 : 1),
    ];
    const crossed = a.length > 1 && b.length > 1 && a.at(-1) === b.at(-2) && a.at(-2) === b.at(-1);
    if (crossed) costs.push(slow(a.slice(0, -2), b.slice(0, -2)) + 1);
    return Math.min(...costs);
  };
  const short = fc.string({ unit: fc.constantFrom('a', 'b', 'c'), maxLength: 6 });
  fc.assert(
    fc.property(short, short, fc.nat(4), (a, b, limit) => {
      expect(slipsBetween(a, b, limit)).toBe(Math.min(slow(a, b), limit + 1));
    }),
    { numRuns: 300 },
  );
});

test('a slip between verbs that mean no work by themselves is no report of either', () => {
  for (const { lexicon } of LANGUAGES) {
    const { readings, unclear } = hear('trekta ya upper imeharibika mpaka 18 machi', lexicon, 20890);
    for (const reading of [...readings, ...(unclear?.choices ?? [])])
      if ('activity' in reading && reading.activity) expect(ACTIVITIES).toContain(reading.activity);
  }
});
