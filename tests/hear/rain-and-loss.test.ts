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
    ['rain 20mm next friday', 'future-date'],
    ['rain 20mm on 30 february', 'impossible-date'],
    ['rain 20mm on 12 march', 'future-date'],
    ['rain 10mm monday 20mm tuesday', 'which-day'],
  ])('"%s" is asked back: %s', (text, why) =>
    expect(hearEnglish(text)).toMatchObject({ readings: [], unclear: { why } }),
  );

  test.each([
    'rain 20 plot 2 30',
    'rain 20 plot 1 30 plot 2',
    'rain plot 1 20 plot 2 30',
    'rain plot 1 2',
    'rain plot 2, 20',
    'rain plot 2 - 20',
    'rain 20 and plot 2',
    'rain plots 1 2 20',
    'rain 2 plots 1 and 2',
    'rain one plot 20',
    'rain all plots 20',
    'rain 20 A17',
  ])('"%s": a number that may be a plot or an amount is asked about', (text) =>
    expect(hearEnglish(text)).toMatchObject({ readings: [], unclear: { why: 'which-activity' } }),
  );

  test.each([
    ['rain plots 1 2 3', ['1', '2', '3']],
    ['rain plots 1 2', ['1', '2']],
    ['rain plots 1 and 2 3', ['1', '2', '3']],
    ['rain plot 1 and plot 2', ['1', '2']],
    ['rain plot 1-3', ['1', '2', '3']],
  ])('"%s" lists plots and no amount', (text, plots) =>
    expect(sums(text)).toMatchObject([{ values: [], plots }]),
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

describe('a flood that lasts', () => {
  const flood = { kind: 'report', activity: 'flood' };

  test.each([
    'we flooded until friday',
    'we are flooded until friday',
    'i had the field flooded until friday',
    'flooded the field until friday',
    'flooded until 5 march',
    'flooded untill 25',
    'plot 3 flooded yesterday until friday',
    'flooded plot 3 until friday',
  ])('"%s": done on purpose, over, or a trouble, is asked', (text) =>
    expect(hearEnglish(text)).toMatchObject({
      readings: [],
      unclear: { why: 'two-meanings', choices: [{ kind: 'trouble', what: 'flooded-out' }, flood] },
    }),
  );

  test('without an end it is work', () => {
    expect(hearEnglish('plot 3 flooded').readings).toMatchObject([flood]);
    expect(hearEnglish('flooded plot 3 up to 5 cm').readings).toMatchObject([flood]);
  });

  test('no work is finished that goes on until a day', () => {
    for (const text of [
      'ploughed plot 3 until friday',
      'until friday we ploughed plot 3',
      'watered plot 3 till friday',
    ])
      expect(hearEnglish(text)).toMatchObject({ readings: [], unclear: { why: 'which-day' } });
    expect(hearEnglish('ploughed plot 3, no water until friday').readings).toMatchObject([
      { kind: 'report', activity: 'plough' },
      { kind: 'trouble', what: 'no-water', until: '2027-03-12' },
    ]);
  });
});

describe('bunds', () => {
  const soaked = (text: string) =>
    hearEnglish(text).readings.filter((one) => one.kind === 'report' && one.activity === 'soak');

  test('closing them implies the soaking, and says so', () => {
    expect(soaked('closed bunds of plot 2 yesterday')).toMatchObject([
      { plots: ['2'], on: '2027-03-09', assumed: ['stage', 'activity'] },
    ]);
    expect(soaked('soaked plot 2 yesterday')).toMatchObject([{ assumed: ['stage'] }]);
  });

  test('all bunds are not all plots', () => {
    expect(soaked('closed all my bunds')).toMatchObject([{ plots: [] }]);
    expect(soaked('closed all bunds plot 1')).toMatchObject([{ plots: ['1'] }]);
    expect(soaked('closed the bunds in all plots')).toMatchObject([{ plots: ['all'] }]);
  });

  test.each([
    'opened the bunds',
    'bunds opened plot 2',
    'bund cut plot 2',
    'bund broken plot 2',
    'bunds not closed plot 2',
    'close the bunds plot 2',
    'shut the bunds!',
    'please shut the bunds plot 2',
    'we must shut the bunds plot 2',
    'want to close the bunds plot 2',
    'shall i close the bunds plot 2',
    'will shut the bunds tomorrow',
    'shut the bunds tomorrow',
    'neighbour closed the bunds plot 2',
    'bund broke, repaired the bund plot 2',
    'repaired the tractor plot 2',
    'fund closed plot 2',
    'closed the drain plot 2',
  ])('"%s" soaks nothing', (text) => expect(soaked(text)).toEqual([]));
});
