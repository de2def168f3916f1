import { describe, expect, test } from 'vitest';
import { isoDay } from '../../src/plan/day.ts';
import { hearEnglish, reportsIn, TODAY } from './languages.ts';

const on = (text: string): unknown => {
  const { readings, unclear } = hearEnglish(text);
  const [reading] = readings;
  return reading && 'on' in reading ? reading.on : unclear?.why;
};

describe('the figures of the design', () => {
  test('one report with a day and a depth', () => {
    expect(hearEnglish('ploughed plot 3 yesterday, 12 cm')).toEqual({
      readings: [
        {
          kind: 'report',
          activity: 'plough',
          stage: 'finished',
          plots: ['3'],
          on: '2027-03-09',
          measures: { depthCm: 12 },
          assumed: ['stage'],
        },
      ],
      unclear: null,
    });
  });

  test('keys stand in the order of the design', () => {
    expect(Object.keys(hearEnglish('ploughed plot 3').readings[0]!)).toEqual([
      'kind',
      'activity',
      'stage',
      'plots',
      'on',
      'measures',
      'assumed',
    ]);
  });

  test('a day not said is today, and said to be assumed', () => {
    expect(hearEnglish('ploughed plot 3').readings[0]).toMatchObject({
      on: isoDay(TODAY),
      assumed: ['stage', 'on'],
    });
  });
});

describe('days, the day before the month', () => {
  test.each([
    ['ploughed 3 on 3/3', '2027-03-03'],
    ['ploughed 3 on 1/3', '2027-03-01'],
    ['ploughed 3 5.2.27', '2027-02-05'],
    ['ploughed 3 5-2-2027', '2027-02-05'],
    ['ploughed 3 2027-02-05', '2027-02-05'],
    ['ploughed 3 on 28 dec', '2026-12-28'],
    ['ploughed 3 on mon', '2027-03-08'],
    ['ploughed 3 on wednesday', '2027-03-10'],
    ['ploughed 3 on thursday', '2027-03-04'],
    ['ploughed 3 last wednesday', '2027-03-03'],
    ['ploughed 3 monday last week', '2027-03-01'],
    ['will plough 3 on thursday', '2027-03-11'],
    ['will plough 3 on monday', '2027-03-15'],
    ['will plough 3 on 2 april', '2027-04-02'],
    ['will plough 3 in 10 days', '2027-03-20'],
    ['ploughed 3 on the 28th', '2027-02-28'],
    ['ploughed 3 on the 10th', '2027-03-10'],
    ['ploughed 3 a week ago', '2027-03-03'],
    ["ploughed 3 don't know when", null],
  ])('%s', (text, day) => expect(on(text)).toBe(day));

  test.each([
    ['ploughed 3 on 31 april', 'impossible-date', '31 april'],
    ['ploughed 3 on 31/4', 'impossible-date', '31/4'],
    ['ploughed 3 on 5/13', 'impossible-date', '5/13'],
    ['ploughed 3 on 29 feb', 'impossible-date', '29 feb'],
    ['ploughed 3 on 29.2.2027', 'impossible-date', '29.2.2027'],
    ['will plough 3 on 31 april', 'impossible-date', '31 april'],
    ['plough 3 on 31 april', 'impossible-date', '31 april'],
    ['ploughed 3 on 12 march', 'future-date', '12 march'],
    ['ploughed 3 on 12/3/2027', 'future-date', '12/3/2027'],
    ['ploughed 3 tomorrow', 'future-date', 'tomorrow'],
    ['ploughed 3 next friday', 'future-date', 'next friday'],
    ['ploughed 3 last week', 'which-day', 'last week'],
  ])('%s is asked back', (text, why, said) => expect(hearEnglish(text).unclear).toMatchObject({ why, said }));
});

describe('choices of a numbered question', () => {
  test.each([
    ['plough plot 3', ['report', 'ask']],
    ['plough plot 3!', ['ask', 'report']],
    ['maybe ploughed 3', ['report', 'not-done']],
    ['he ploughed 3', ['report', 'not-done']],
    ['ploughed 3?', ['report', 'ask']],
    ['ploughed 3 tomorrow', ['intend']],
    ['ploughed not ploughed', ['report', 'not-done']],
    ['put fertiliser plot 2 yesterday', ['report', 'report']],
  ])('%s', (text, kinds) => {
    expect(hearEnglish(text).unclear?.choices.map((choice) => choice.kind)).toEqual(kinds);
  });

  test('a plain verb with a past day or a measure is a report', () => {
    expect(hearEnglish('plough plot 3 yesterday').readings[0]).toMatchObject({
      kind: 'report',
      on: '2027-03-09',
    });
    expect(hearEnglish('plough plot 3 12cm').readings[0]).toMatchObject({
      kind: 'report',
      measures: { depthCm: 12 },
    });
  });
});

describe('words that differ by a letter', () => {
  test.each([
    'pilot',
    'lever',
    'plane',
    'plan',
    'week',
    'showed',
    'clean',
    'dear',
    'floored',
    'soap',
    'speak',
    'asked',
  ])('"%s 3" is no work', (word) => expect(reportsIn(hearEnglish(`${word} 3`))).toEqual([]));
});

describe('numbers that are no plots', () => {
  test.each([
    ['ploughed plot 2 with 3 men', ['2']],
    ['ploughed plot 2 at 6 am', ['2']],
    ['ploughed plot 2 for 3 hours', ['2']],
    ['ploughed plot 2 half acre', ['2']],
    ['ploughed plot 2 in 2 days', ['2']],
    ['spread 3 carts of manure in plot 2', ['2']],
    ['3 women weeded plot 2', ['2']],
  ])('%s', (text, plots) => {
    const { readings, unclear } = hearEnglish(text);
    const [reading] = unclear ? unclear.choices : readings;
    expect(reading).toMatchObject({ plots });
  });
});
