import { describe, expect, test } from 'vitest';
import { hear } from '../../src/hear/hear.ts';
import { readWords } from '../../src/hear/read-words.ts';
import { ENGLISH, TODAY } from './languages.ts';

/** A small language of our own making, whose verbs carry doer, time, order and condition in front, and whose units stand before figures. */
const read = readWords({
  ...ENGLISH.list,
  unitsFirst: true,
  alike: [['x', 's']],
  patterns: {
    done: ['nime~a', 'lime~wa'],
    theirs: ['ame~a', 'ameko~a'],
    theirGoing: ['ana~a'],
    not: ['sija~a'],
    future: ['nita~a'],
    going: ['nina~a'],
    linking: ['ku~a'],
    order: ['ni~e'],
    condition: ['niki~a'],
  },
  loanPatterns: { done: ['nime~'], not: ['sija~'], future: ['nita~'], linking: ['ku~'] },
  activities: {
    plough: { stems: ['lim'], loans: ['rotavate'], done: ['ploughed'] },
    puddle: { stems: ['vurug', 'kolim'] },
  },
  verbs: {},
  meanings: [],
  helpers: [
    { stems: ['anz'], says: 'started' },
    { stems: ['maliz'], says: 'finished', doing: 'started' },
  ],
  marks: { ...ENGLISH.list.marks, ours: ['mume wangu', 'workers'] },
  plots: { ...ENGLISH.list.plots, counted: ['one', 'two'] },
  dates: { ...ENGLISH.list.dates, dayWords: ['tarehe'] },
  knownWords: [],
  knownStems: ['lip', 'lis', 'limik'],
});

const heard = (text: string) => {
  if (!read.ok) throw new Error(read.mistakes.join('\n'));
  return hear(text, read.lexicon, TODAY);
};
const only = (text: string) => heard(text).readings[0] ?? heard(text).unclear?.why;

describe('what a verb carries inside', () => {
  test.each([
    ['nimelima plot 3', { kind: 'report', activity: 'plough', stage: 'finished' }],
    ['plot 3 limelimwa', { kind: 'report', activity: 'plough', stage: 'finished' }],
    ['mume wangu amelima plot 3', { kind: 'report', activity: 'plough' }],
    ['workers 6 amelima plot 3', { kind: 'report', activity: 'plough', plots: ['3'] }],
    ['workers 6 analima plot 3', { kind: 'report', activity: 'plough', stage: 'started' }],
    ['workers 6 anamaliza kulima plot 3', { kind: 'report', stage: 'started' }],
    ['nimeanza kulima plot 3', { kind: 'report', stage: 'started' }],
    ['nimemaliza kulima plot 3', { kind: 'report', stage: 'finished' }],
    ['sijaanza kulima plot 3', { kind: 'not-done' }],
    ['nitaanza kulima plot 3 tomorrow', { kind: 'intend', on: '2027-03-11' }],
    ['sijalima plot 3', { kind: 'not-done' }],
    ['nitalima plot 3', { kind: 'intend' }],
    ['nilime plot 3?', { kind: 'ask', about: 'dates' }],
  ])('%s', (text, expected) => expect(only(text)).toMatchObject(expected));

  test.each([
    'amelima plot 3',
    'analima plot 3',
    'men 6 amelima plot 3',
    'anamaliza kulima plot 3',
    'nilime plot 3',
    'nikilima plot 3',
    'nikilima',
    'kulima plot 3 yesterday',
    'nilime plot 3 12 cm',
  ])('"%s" is asked back', (text) => expect(only(text)).toBe('two-meanings'));

  test('an infinitive goes on as the verb before it', () => {
    const kinds = (text: string) => heard(text).readings.map((one) => one.kind);
    expect(kinds('nimelima plot 3 and kuvuruga plot 2')).toEqual(['report', 'report']);
    expect(kinds('sijalima and kuvuruga plot 2')).toEqual(['not-done', 'not-done']);
    expect(kinds('nitalima and kuvuruga plot 2')).toEqual(['intend', 'intend']);
  });

  test('a present is under way or to come, and never what another verb was done to', () => {
    expect(only('ninalima plot 3')).toMatchObject({ kind: 'report', stage: 'started' });
    expect(only('ninalima plot 3 tomorrow')).toMatchObject({ kind: 'intend' });
    expect(
      heard('put it today tomorrow ninavuruga plot 2').readings.filter((one) => one.kind === 'report'),
    ).toEqual([]);
  });

  test('a day between two verbs is of the second where days lead', () => {
    expect(heard('yesterday nimelima plot 3 today nimevuruga plot 2').readings).toMatchObject([
      { activity: 'plough', on: '2027-03-09' },
      { activity: 'puddle', on: '2027-03-10' },
    ]);
  });

  test('a stem of another language grows without the endings of this one', () => {
    expect(only('nimerotavate plot 3')).toMatchObject({ kind: 'report', activity: 'plough' });
    expect(only('nimemaliza kurotavate plot 3')).toMatchObject({ kind: 'report', stage: 'finished' });
    expect(only('sijarotavate plot 3')).toMatchObject({ kind: 'not-done' });
    expect(only('nitarotavate plot 3 friday')).toMatchObject({ kind: 'intend', on: '2027-03-12' });
  });

  test('of two stems the longer one is meant', () => {
    expect(only('mume wangu amekolima plot 3')).toMatchObject({ activity: 'puddle' });
  });
});

describe('slips in a word with a prefix', () => {
  test('are counted by its stem, and never make ours of a known verb', () => {
    expect(only('nimelma plot 3')).toMatchObject({ kind: 'report', activity: 'plough' });
    for (const text of ['nimefika plot 3', 'nimelipa plot 3', 'nimelimika plot 3'])
      expect(heard(text).readings).toEqual([]);
  });

  test('that leave denial and doing as near are asked back', () => {
    for (const text of ['nijalima plot 3', 'sijelima plot 3', 'sitalima plot 3'])
      expect(heard(text).readings.filter((one) => one.kind === 'report')).toEqual([]);
  });

  test('letters typed for others are read as meant', () => {
    expect(only('xijalima plot 3')).toMatchObject({ kind: 'not-done' });
  });

  test('letters typed for others make no word of ours of a known one', () => {
    expect(heard('nimelixa plot 3').readings).toEqual([]);
  });
});

describe('a unit before its figure', () => {
  test.each([
    ['nimelima plot 3 cm 12', { plots: ['3'], measures: { depthCm: 12 } }],
    ['nimelima plot 3 cm12', { plots: ['3'], measures: { depthCm: 12 } }],
    ['nimelima plot 3, 12cm', { plots: ['3'], measures: { depthCm: 12 } }],
    ['nimelima plot 3 days 2 ago', { plots: ['3'], on: '2027-03-08' }],
    ['nimelima plot 3 tarehe 8', { plots: ['3'], on: '2027-03-08' }],
    ['nimelima tarehe 8 plot 3', { plots: ['3'], on: '2027-03-08' }],
    ['nimelima plot 3 tarehe 27 month of 2', { plots: ['3'], on: '2027-02-27' }],
    ['nimelima plot 3 percent 50', { plots: ['3'], stage: 'started', measures: { share: 0.5 } }],
    ['nimelima cm 10-12 plot 3', { plots: ['3'], measures: {} }],
    ['nimelima plot 3 acre 1 and half', { measures: { amount: { value: 1.5, unit: 'acre' } } }],
  ])('%s', (text, expected) => expect(only(text)).toMatchObject(expected));

  test('what is not understood beside a plot, a month or an area is asked', () => {
    expect(only('nimelima plot no krakas')).toBe('which-plot');
    expect(only('nimelima plot 3 march')).toBe('which-day');
    expect(only('nimelima acre krakas')).toBe('two-meanings');
    expect(only('nimelima kg krakas plot 3')).toBe('two-meanings');
  });

  test('a number word right behind the word for plot may be a count', () => {
    expect(only('nimelima plot two')).toBe('which-plot');
    expect(only('nimelima plot one and two')).toMatchObject({ plots: ['1', '2'] });
  });
});
