import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { ACTIVITIES, type Activity } from '../../src/agronomy/season.ts';
import type { Form } from '../../src/hear/forms.ts';
import { hear } from '../../src/hear/hear.ts';
import type { Heard } from '../../src/hear/reading.ts';
import { wordSenses } from '../../src/hear/word-senses.ts';
import { hearEnglish, LANGUAGES, reportsIn, TODAY } from './languages.ts';

/** Thousands of texts on a busy machine. */
vi.setConfig({ testTimeout: 60_000 });

/** How each is said plainly: done, plain, doing. */
const SAID: Readonly<Record<Activity, readonly [string, string, string]>> = {
  clear: ['cleared', 'clear', 'clearing'],
  soak: ['soaked', 'soak', 'soaking'],
  plough: ['ploughed', 'plough', 'ploughing'],
  'rough-level': ['roughly levelled', 'rough level', 'rough levelling'],
  flood: ['flooded', 'flood', 'flooding'],
  manure: ['spread manure on', 'spread manure on', 'spreading manure on'],
  puddle: ['puddled', 'puddle', 'puddling'],
  basal: ['applied basal fertiliser to', 'apply basal fertiliser to', 'applying basal fertiliser to'],
  level: ['levelled', 'level', 'levelling'],
  pregerminate: ['pregerminated the seed for', 'pregerminate the seed for', 'pregerminating the seed for'],
  'sow-nursery': ['sowed the nursery for', 'sow the nursery for', 'sowing the nursery for'],
  transplant: ['transplanted', 'transplant', 'transplanting'],
  'sow-direct': ['direct seeded', 'direct seed', 'direct seeding'],
  'gap-fill': ['gap filled', 'gap fill', 'gap filling'],
  weed: ['weeded', 'weed', 'weeding'],
  topdress: ['topdressed', 'topdress', 'topdressing'],
  drain: ['drained', 'drain', 'draining'],
  harvest: ['harvested', 'harvest', 'harvesting'],
};

const activity = fc.constantFrom(...ACTIVITIES);
const kinds = (heard: Heard) => heard.readings.map((reading) => reading.kind);

const only = (template: string, form: 0 | 1 | 2, expected: object) =>
  fc.assert(
    fc.property(activity, fc.integer({ min: 1, max: 60 }), (name, plot) => {
      const text = template.replace('{v}', SAID[name][form]).replace('{p}', `plot ${plot}`);
      const heard = hearEnglish(text);
      expect(heard.readings, `${text} ${JSON.stringify(heard)}`).toHaveLength(1);
      expect(heard.readings[0], text).toMatchObject({ ...expected, activity: name, plots: [String(plot)] });
    }),
    { numRuns: 200 },
  );

describe('every activity in every sense', () => {
  test.each([
    'I {v} {p} yesterday',
    'we have {v} {p} yesterday',
    'yesterday {v} {p}',
    '{v} {p} on 9 march',
    '{v} {p} yday',
  ])('done: %s', (template) => only(template, 0, { kind: 'report', stage: 'finished', on: '2027-03-09' }));
  test.each(['finished {v} {p}', '{v} {p} done', '{v} {p} is finished'])('finished: %s', (template) =>
    only(template, 2, { kind: 'report', stage: 'finished' }),
  );
  test.each(['started {v} {p}', 'still {v} {p}', 'busy {v} {p}'])('started: %s', (template) =>
    only(template, 2, { kind: 'report', stage: 'started' }),
  );
  test.each(['not {v} {p}', 'have not {v} {p}', "haven't {v} {p} yet", 'I never {v} {p}', 'nt yet {v} {p}'])(
    'not: %s',
    (template) => only(template, 0, { kind: 'not-done' }),
  );
  test.each([
    "didn't {v} {p}",
    'could not {v} {p}',
    'failed to {v} {p}',
    'forgot to {v} {p}',
    'need to {v} {p}',
    'still to {v} {p}',
  ])('not, with the plain verb: %s', (template) => only(template, 1, { kind: 'not-done' }));
  test.each([
    'will {v} {p} tomorrow',
    'going to {v} {p} tomorrow',
    'want to {v} {p} tomorrow',
    'tomorrow I will {v} {p}',
    'plan to {v} {p} 2moro',
  ])('future: %s', (template) => only(template, 1, { kind: 'intend', on: '2027-03-11' }));
  test.each([
    'when should I {v} {p}',
    'can I {v} {p} now?',
    'wen to {v} {p}?',
    'is it time to {v} {p}',
    'should we {v} {p}',
  ])('question: %s', (template) => only(template, 1, { kind: 'ask', about: 'dates' }));
  test.each([
    '{v} {p}!',
    'please {v} {p}',
    'you must {v} {p}',
    'everybody must {v} {p}',
    '{v} {p}',
    'go and {v} {p}',
  ])('an order is no report: %s', (template) =>
    fc.assert(
      fc.property(activity, (name) => {
        const heard = hearEnglish(template.replace('{v}', SAID[name][1]).replace('{p}', 'plot 3'));
        expect(kinds(heard)).not.toContain('report');
      }),
    ),
  );
  test.each([
    'maybe {v} {p}',
    'my neighbour {v} {p}',
    'he {v} {p}',
    'they say {v} {p}',
    'if {v} {p} then',
    'I think {v} {p}',
    '{v} {p}?',
    'Musa {v} {p}',
  ])('doubt is no report: %s', (template) =>
    fc.assert(
      fc.property(activity, (name) => {
        const heard = hearEnglish(template.replace('{v}', SAID[name][0]).replace('{p}', 'plot 3'));
        expect(kinds(heard)).not.toContain('report');
      }),
    ),
  );
});

for (const { lang, list, lexicon } of LANGUAGES) {
  describe(`words of ${lang}`, () => {
    const verbs = Object.entries(list.activities).flatMap(([name, verb]) =>
      verb!.done.map((word) => ({ name, word })),
    );
    const grown = wordSenses(list).filter(({ sense }) => sense.role === 'act');
    const phrasesIn = (form: Form) =>
      grown.flatMap(({ phrase, sense }) => (sense.form === form ? [phrase] : []));
    const [done, plain] = [phrasesIn('done'), phrasesIn('plain')];

    test('every done form alone is its activity, or a question that offers it', () => {
      for (const { name, word } of verbs) {
        const { readings, unclear } = hear(word, lexicon, TODAY);
        expect([...readings, ...(unclear?.choices ?? [])], word).toContainEqual(
          expect.objectContaining({ activity: name }),
        );
      }
    });

    test('no word that denies leaves a report', () => {
      fc.assert(
        fc.property(fc.constantFrom(...list.marks.not), fc.constantFrom(...done), (not, word) => {
          expect(reportsIn(hear(`${not} ${word}`, lexicon, TODAY))).toEqual([]);
        }),
        { numRuns: 2000 },
      );
    });

    test('no form that denies, looks ahead or orders leaves a report', () => {
      const turned = [...phrasesIn('not'), ...phrasesIn('future'), ...phrasesIn('linking')];
      if (turned.length === 0) return;
      fc.assert(
        fc.property(fc.constantFrom(...turned), fc.constantFrom('', ' 3', ' 3 12 cm'), (word, rest) => {
          expect(reportsIn(hear(word + rest, lexicon, TODAY)), word + rest).toEqual([]);
        }),
        { numRuns: 2000 },
      );
    });

    test('no word for the future, need or question leaves a report of a plain verb', () => {
      const turns = [
        ...list.marks.future,
        ...list.marks.want,
        ...list.marks.need,
        ...list.marks.question,
        ...list.marks.if,
      ];
      fc.assert(
        fc.property(fc.constantFrom(...turns), fc.constantFrom(...plain), (turn, word) => {
          expect(reportsIn(hear(`${turn} ${word}`, lexicon, TODAY))).toEqual([]);
        }),
        { numRuns: 2000 },
      );
    });
  });
}
