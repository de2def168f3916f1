/** Every kind of work in every sense, as Swahili puts it: inside the verb. */
import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { ACTIVITIES, type Activity } from '../../src/agronomy/season.ts';
import { hear } from '../../src/hear/hear.ts';
import { wordSenses } from '../../src/hear/word-senses.ts';
import { LANGUAGES, reportsIn, TODAY } from './languages.ts';

/** Thousands of texts on a busy machine. */
vi.setConfig({ testTimeout: 60_000 });

const { list, lexicon } = LANGUAGES.find((one) => one.lang === 'sw')!;
const heard = (text: string) => hear(text, lexicon, TODAY);

/** The stem, and what it is done with. */
const SAID: Readonly<Record<Activity, readonly [string, string]>> = {
  clear: ['fyek', ''],
  soak: ['lowesh', ''],
  plough: ['lim', ''],
  'rough-level': ['sawazish', ' awali'],
  flood: ['ingiz', ' maji'],
  manure: ['wek', ' samadi'],
  puddle: ['vurug', ''],
  basal: ['wek', ' mbolea ya kupandia'],
  level: ['sawazish', ''],
  pregerminate: ['lowek', ' mbegu'],
  'sow-nursery': ['si', ' kitalu'],
  transplant: ['pandikiz', ''],
  'sow-direct': ['rush', ' mbegu'],
  'gap-fill': ['zib', ' mapengo'],
  weed: ['palili', ''],
  topdress: ['wek', ' mbolea ya kukuzia'],
  drain: ['to', ' maji'],
  harvest: ['vun', ''],
};

const said = (template: string, name: Activity, plot: number | string): string =>
  template
    .replace(/\S*~\S*/, (verb) => verb.replace('~', SAID[name][0]) + SAID[name][1])
    .replace('{p}', `shamba ${plot}`);

const activity = fc.constantFrom(...ACTIVITIES);

const only = (template: string, expected: object) =>
  fc.assert(
    fc.property(activity, fc.integer({ min: 1, max: 60 }), (name, plot) => {
      const text = said(template, name, plot);
      const found = heard(text);
      expect(found.readings, `${text} ${JSON.stringify(found)}`).toHaveLength(1);
      expect(found.readings[0], text).toMatchObject({ ...expected, activity: name, plots: [String(plot)] });
    }),
    { numRuns: 100 },
  );

describe('every activity in every sense', () => {
  test.each([
    'nime~a {p} jana',
    'jana tuli~a {p}',
    'nmesha~a {p} jana',
    '2me~a {p} jana jioni',
    'mume wangu ame~a {p} jana',
    'vibarua wangu wame~a {p} jana',
    'nime~a {p} tarehe 9 machi',
    'nime~a {p} tarehe 9 mwezi wa 3',
    'tume~a {p} jumanne',
    'nime~a {p} siku moja iliyopita',
  ])('done: %s', (template) => only(template, { kind: 'report', stage: 'finished', on: '2027-03-09' }));
  test.each(['nimemaliza ku~a {p}', 'ku~a {p} tayari', 'tumekamilisha ku~a {p}'])(
    'finished: %s',
    (template) => only(template, { kind: 'report', stage: 'finished' }),
  );
  test.each(['nimeanza ku~a {p}', 'tunaendelea ku~a {p}', 'nina~a {p}', 'tuna~a {p} leo'])(
    'started: %s',
    (template) => only(template, { kind: 'report', stage: 'started' }),
  );
  test.each([
    'sija~a {p}',
    'hatuja~a {p} bado',
    'siku~a {p} jana',
    'bado cja~a {p}',
    'xija~a {p}',
    'haja~a {p}',
    'ku~a {p} bado',
    'sijaanza ku~a {p}',
    'siwezi ku~a {p}',
    'nimeshindwa ku~a {p}',
    'nimesahau ku~a {p}',
    'sita~a {p} kesho',
    'usi~e {p}',
  ])('not: %s', (template) => only(template, { kind: 'not-done' }));
  test.each([
    'nita~a {p} kesho',
    'kesho tuta~a {p}',
    'nataka ku~a {p} kesho',
    'natarajia ku~a {p} kesho',
    'nitaanza ku~a {p} kesho',
    'nina~a {p} kesho',
  ])('future: %s', (template) => only(template, { kind: 'intend', on: '2027-03-11' }));
  test.each(['ni~e {p} lini', 'lini tu~e {p}?', 'ni~e {p}?', 'naweza ku~a {p} leo?', 'je tu~e {p}'])(
    'question: %s',
    (template) => only(template, { kind: 'ask', about: 'dates' }),
  );
  test.each([
    '~a {p}',
    '~a {p}!',
    '~eni {p}',
    'ni~e {p}',
    'u~e {p}',
    'tafadhali ~a {p}',
    'ni~e {p} sm 12',
    'jirani ame~a {p}',
    'Juma ame~a {p}',
    'wali~a {p} jana',
    'ume~a {p}',
    'labda nime~a {p}',
    'nasikia nime~a {p}',
    'niki~a {p}',
    'kama nime~a {p}',
    'ningali~a {p}',
    'ku~a {p}',
    'ku~a {p} jana',
    'baada ya ku~a {p}',
    'bila ku~a {p}',
    'je, nime~a {p}?',
    'nime~a {p}?',
    'nilitaka ku~a {p} jana',
    'nilienda ku~a {p} jana',
  ])('no report: %s', (template) =>
    fc.assert(
      fc.property(activity, (name) => {
        const text = said(template, name, 3);
        expect(reportsIn(heard(text)), text).toEqual([]);
        expect(reportsIn(heard(text.toUpperCase())), text).toEqual([]);
      }),
      { numRuns: 60 },
    ),
  );
});

describe('plots and days', () => {
  test.each([
    ['nimelima shamba la tatu', ['3']],
    ['nimelima shamba la kumi na mbili', ['12']],
    ['nimelima shamba namba 4', ['4']],
    ['nimelima jaruba la 2 na la 5', ['2', '5']],
    ['nimelima mashamba 1 hadi 3', ['1', '2', '3']],
    ['nimelimashamba3', ['3']],
    ['nimelima shamba ٣', ['3']],
    ['nimelima mashamba yote', ['all']],
    ['nimepandikiza miche yote', []],
  ])('%s', (text, plots) => expect(heard(text).readings).toMatchObject([{ kind: 'report', plots }]));

  test.each([
    'nimelima shamba moja',
    'nimelima mashamba 3',
    'nimelima mashamba matatu',
    'nimelima shamba la kwqwza',
  ])('"%s" may count plots: asked', (text) => expect(heard(text).unclear?.why).toBe('which-plot'));

  test.each([
    ['nimelima shamba 3 tarehe 31 aprili', 'impossible-date'],
    ['nimelima shamba 3 tarehe 31 mwezi wa 4', 'impossible-date'],
    ['nitalima shamba 3 tarehe 31 aprili', 'impossible-date'],
    ['nimelima shamba 3 kesho', 'future-date'],
    ['nimelima shamba 3 ijumaa ijayo', 'future-date'],
    ['nimelima shamba 3 wiki iliyopita', 'which-day'],
    ['nimelima shamba 3 mwezi wa pili', 'which-day'],
    ['nimelima shamba 3 jumatatu jana', 'which-day'],
  ])('%s: %s', (text, why) => expect(heard(text).unclear?.why).toBe(why));

  test.each([
    ['nimelima shamba 3 alhamisi', '2027-03-04'],
    ['nimelima shamba 3 jumatatu iliyopita', '2027-03-08'],
    ['nimelima shamba 3 j5', '2027-03-10'],
    ['nimelima shamba 3 tarehe 28', '2027-02-28'],
    ['nimelima shamba 3 wiki mbili zilizopita', '2027-02-24'],
    ['nitalima shamba 3 alhamisi', '2027-03-11'],
    ['nitalima shamba 3 baada ya siku 10', '2027-03-20'],
  ])('%s is %s', (text, on) => expect(heard(text).readings).toMatchObject([{ on }]));
});

describe('the word list', () => {
  test('grows no word into two kinds of work, or two senses of one', () => {
    const meant = new Map<string, Set<string>>();
    for (const { phrase, sense } of wordSenses(list)) {
      if (sense.role !== 'act' && sense.role !== 'verb') continue;
      const known = meant.get(phrase) ?? new Set();
      meant.set(phrase, known.add(`${sense.value} ${sense.form}`));
    }
    expect([...meant].filter(([, senses]) => senses.size > 1)).toEqual([]);
  });

  test.each(['lip', 'lal', 'li', 'vunj', 'vu', 'fik', 'tum', 'ongoz', 'shuk', 'pik', 'pend', 'pat'])(
    'an ordinary verb in -%s- is no work',
    (stem) => {
      for (const form of ['nime~a', 'tume~a', 'nili~a', 'lime~wa', 'nimesha~a'])
        expect(reportsIn(heard(`${form.replace('~', stem)} shamba 3 jana`)), stem).toEqual([]);
    },
  );
});

test.each([
  ['nimelma shamba 3', 'plough'],
  ['nimepandkiza shamba 3', 'transplant'],
  ['NIMEPALILLIA SHAMBA 3', 'weed'],
  ['nmesawazixha shmb 3', 'level'],
])('"%s" is forgiven', (text, name) =>
  expect(heard(text).readings).toMatchObject([{ kind: 'report', activity: name, plots: ['3'] }]),
);

test.each([
  'sjalima shamba 3',
  'hatujlima shamba 3',
  'sijlima shamba 3',
  'nijalima shamba 3',
  'tukulima shamba 3',
])('a slip in "%s" makes no report of a denial', (text) => expect(reportsIn(heard(text))).toEqual([]));
