import { describe, expect, test } from 'vitest';
import { parseDay } from '../../src/plan/day.ts';
import { hearEnglish } from './languages.ts';

const kinds = (text: string) => hearEnglish(text).readings.map((reading) => reading.kind);
const measures = (text: string): unknown => {
  const [reading] = hearEnglish(text).readings;
  return reading?.kind === 'report' ? { stage: reading.stage, ...reading.measures } : null;
};

describe('a part of the work', () => {
  test.each([
    ['ploughed half of plot 3', { stage: 'started', share: 0.5 }],
    ['ploughed ½ of plot 3', { stage: 'started', share: 0.5 }],
    ['ploughed½ plot 3', { stage: 'started', share: 0.5 }],
    ['plot 3 ploughed, 12½ cm', { stage: 'finished', depthCm: 12.5 }],
    ['ploughed 40% of plot 3', { stage: 'started', share: 0.4 }],
    ['ploughed 2/5 of plot 3', { stage: 'started', share: 0.4 }],
    ['ploughed 2 thirds of plot 3', { stage: 'started', share: 0.67 }],
    ['ploughed plot 3 100%', { stage: 'finished' }],
    ['ploughed most of plot 3', { stage: 'started' }],
    ['ploughed 1/2 acre of plot 3', { stage: 'started', amount: { value: 0.5, unit: 'acre' } }],
    ['ploughed 1 and a half acres of plot 3', { stage: 'started', amount: { value: 1.5, unit: 'acre' } }],
    ['ploughed the other half of plot 3', { stage: 'finished' }],
    ['ploughing the rest of plot 3', { stage: 'started' }],
    ['finished ploughing the rest of plot 3', { stage: 'finished' }],
  ])('%s', (text, expected) => expect(measures(text)).toEqual(expected));

  test.each([
    'put half bag urea plot 2',
    'put half of the urea on plot 2',
    'planted half of the seedlings plot 2',
  ])('"%s" is a part of something else', (text) => expect(measures(text)).not.toHaveProperty('share'));

  test.each(['not ploughed half of plot 3', 'half of plot 3 not ploughed yet', '3/4 of plot 3 not ploughed'])(
    'denied: %s',
    (text) => expect(kinds(text)).toEqual(['not-done']),
  );

  test.each([
    'will plough half of plot 3',
    'ploughing the rest of plot 3 tomorrow',
    'want to plough 50% of plot 3',
  ])('to come: %s', (text) => expect(kinds(text)).toEqual(['intend']));

  test.each(['when do i plough the rest of plot 3', 'should i plough 3/4 of plot 3?'])('asked: %s', (text) =>
    expect(kinds(text)).toEqual(['ask']),
  );

  test.each(['plough half of plot 3', 'please plough half of plot 3', 'musa ploughed 3/4 of plot 3'])(
    'asked back: %s',
    (text) => expect(hearEnglish(text).unclear?.why).toBe('two-meanings'),
  );
});

describe('a fraction that may be a day', () => {
  test.each([
    ['ploughed 1/3 plot 2', '2027-03-10', 'which-day'],
    ['ploughed 1/3 plot 2', '2027-07-10', undefined],
    ['ploughed 3/4 plot 2', '2027-04-10', 'which-day'],
    ['ploughed 3/4 of plot 2', '2027-04-10', undefined],
    ['ploughed plot 2 on 3/4', '2027-04-10', undefined],
  ])('"%s" on %s', (text, today, why) => expect(hearEnglish(text, parseDay(today)!).unclear?.why).toBe(why));

  test('after "on" it is the day', () => {
    expect(hearEnglish('ploughed plot 2 on 3/4', parseDay('2027-04-10')!).readings[0]).toMatchObject({
      stage: 'finished',
      on: '2027-04-03',
      measures: {},
    });
  });
});

describe('spots behind a levelling report', () => {
  test.each([
    ['levelled plot 3: 4 6 9 12 5', [4, 6, 9, 12, 5]],
    ['levelled plot 3: 4 5 6', [4, 5, 6]],
    ['levelled plot 3: 40 60 50 mm', [4, 6, 5]],
    ['levelled plot 3. 5 4 6 5', [5, 4, 6, 5]],
    ['plot 3 levelled yesterday, 5 4 6 5', [5, 4, 6, 5]],
  ])('%s', (text, spotsCm) =>
    expect(hearEnglish(text).readings).toMatchObject([{ plots: ['3'], measures: { spotsCm } }]),
  );

  test.each([
    'levelled plot 3: 4 6',
    'plot 3 levelled, 4 5 6',
    'levelled plot 3, 6 4 9',
    'levelled plots 1, 2: 4 6 9',
    'levelled plot 1 4 60 9 12 5',
    'levelled plot 1 4 60 9 12 5 yesterday',
    'levelled p1 4 60 9 12 5',
    'plot 1 levelled 4 60 9 12 5',
    'levelled 3 8 5 12 6',
  ])('asks which plot: %s', (text) => expect(hearEnglish(text).unclear?.why).toBe('which-plot'));

  test('a figure that may be a height is no plot in the question', () => {
    expect(hearEnglish('levelled plot 1 4 60 9 12 5').unclear?.choices).toMatchObject([
      { activity: 'level', plots: [] },
    ]);
  });

  test('a list of plots stays one, and a sum a sum', () => {
    expect(hearEnglish('levelled plots 1 2 3').readings[0]).toMatchObject({ plots: ['1', '2', '3'] });
    expect(hearEnglish('levelled plot 1 2 3 4').readings[0]).toMatchObject({ plots: ['1', '2', '3', '4'] });
    expect(hearEnglish('levelled plots 4 1 3 2').readings[0]).toMatchObject({ plots: ['4', '1', '3', '2'] });
    expect(hearEnglish('level plot 3: 4 6 9 12 5').readings[0]).toMatchObject({ kind: 'sum', sum: 'level' });
  });
});
