import { describe, expect, test } from 'vitest';
import { hearEnglish } from './languages.ts';

const sums = (text: string) => hearEnglish(text).readings.filter((reading) => reading.kind === 'sum');
const troubles = (text: string) => hearEnglish(text).readings.filter((reading) => reading.kind === 'trouble');

describe('rain', () => {
  test('all that a text may say of it', () => {
    expect(hearEnglish('rain 32 mm yesterday plot 2').readings).toEqual([
      {
        kind: 'sum',
        sum: 'rain',
        values: [32],
        plots: ['2'],
        on: '2027-03-09',
        unit: 'mm',
        assumed: [],
      },
    ]);
    expect(hearEnglish('rain 32').readings).toEqual([
      { kind: 'sum', sum: 'rain', values: [32], plots: [], assumed: [] },
    ]);
  });

  test.each([
    'will it rain 20mm?',
    'rain 20mm?',
    'rain 20mm tomorrow',
    'if it rains 20mm',
    'maybe 20mm of rain',
    'they got 20mm of rain',
    'kofi had 20mm rain',
    'expecting 20mm of rain',
    'rain coming 20mm',
    'no rain for a month',
    'rain was not 20mm',
    'rain 2 20mm',
    'is it raining',
    'need 20mm rain',
  ])('"%s" is no report of it', (text) => expect(sums(text)).toEqual([]));

  test.each([
    ['rain 20mm last week', 'which-day'],
    ['rain 20mm next friday', 'nothing-known'],
    ['rain 20mm on 30 february', 'impossible-date'],
    ['rain 20mm on 12 march', 'nothing-known'],
    ['rain 10mm monday 20mm tuesday', 'which-day'],
  ])('"%s" is asked back: %s', (text, why) =>
    expect(hearEnglish(text)).toMatchObject({ readings: [], unclear: { why } }),
  );

  test.each(['rain stopped us ploughing plot 3', 'it rained, plot 3 flooded', 'rain 30mm, plot 3 flooded'])(
    'beside doubtful work: %s',
    (text) => expect(hearEnglish(text).unclear?.why).toBe('two-meanings'),
  );

  test('a figure of rain is no depth of the work beside it', () => {
    expect(hearEnglish('ploughed plot 3 12 cm, rain 20 mm').readings).toMatchObject([
      { kind: 'report', measures: { depthCm: 12 } },
      { kind: 'sum', values: [20], unit: 'mm' },
    ]);
  });

  test('rain without a figure beside work leaves the work alone', () => {
    expect(hearEnglish('heavy rain yesterday but ploughed plot 3 today').readings).toMatchObject([
      { kind: 'report', activity: 'plough', on: '2027-03-10' },
    ]);
  });
});

describe('what is lost as a whole', () => {
  test.each([
    ['seedlings died', 'no-seed', 'seedlings'],
    ['rats ate all the seedlings', 'pests', 'seedlings'],
    ['nursery eaten by goats', 'pests', 'seedlings'],
    ['crop washed away', 'flooded-out', 'crop'],
    ['rice failed', 'other', 'crop'],
  ])('%s', (text, what, lost) => expect(troubles(text)).toMatchObject([{ what, lost }]));

  test.each([
    'some seedlings died',
    'half of the seedlings died',
    'most of the rice died',
    'seedlings have not died',
    'seedlings died?',
    'will the seedlings die',
    'are the seedlings dead',
    'if the seedlings died',
    'maybe seedlings died',
    'my neighbours seedlings died',
    'seedlings died, i think',
    'rats ate the rice',
    'cleared dead rice plot 2',
    'failed planting rice plot 2',
    'seedlings are yellow',
  ])('"%s" is no such loss', (text) => {
    for (const trouble of troubles(text)) expect(trouble).not.toHaveProperty('lost');
  });

  test.each(['planted rice died plot 1', 'the seedlings we planted died', 'rice planted in plot 1 died'])(
    '"%s" reports no work',
    (text) => expect(hearEnglish(text).readings).toMatchObject([{ kind: 'trouble' }]),
  );

  test('all of a crop is not all plots', () => {
    expect(troubles('all my seedlings died')).toMatchObject([{ plots: [] }]);
    expect(troubles('rice died in all plots')).toMatchObject([{ plots: ['all'] }]);
  });
});

describe('a lack that ends', () => {
  test.each([
    ['water is back', 'no-water'],
    ['tractor repaired', 'no-machine'],
    ['we have seed now', 'no-seed'],
    ['flood gone', 'flooded-out'],
  ])('%s', (text, what) => expect(troubles(text)).toMatchObject([{ what, over: true }]));

  test.each([
    'water not back yet',
    'is water back',
    'water is back?',
    'when is the tractor repaired',
    'water will be back tomorrow',
    'water is back tomorrow',
    'water back on friday',
    'if the tractor is repaired',
    'maybe water is back',
    'water is back, they say',
    'hope tractor is repaired',
    'tractor came but broke down',
    'tractor came back broken',
    'waiting for water to come back',
    'no seed now',
  ])('"%s" ends nothing', (text) => {
    for (const trouble of troubles(text)) expect(trouble).not.toHaveProperty('over');
  });
});
