import { expect, test } from 'vitest';
import { findPlots } from '../../src/talk/plots.ts';
import { day } from '../support/seasons.ts';
import { ASHAS, plotOf, worldOn } from '../support/small-phone.ts';

const world = worldOn({ ...ASHAS, plots: [plotOf('1'), plotOf('10'), plotOf('17')] }, day('2027-03-10'));

test.each([
  [['1'], ['1']],
  [['01'], ['1']],
  [['10'], ['10']],
  [['U-17'], ['17']],
  [['u17'], ['17']],
  [['U 017'], ['17']],
  [
    ['17', 'U-17', '1'],
    ['17', '1'],
  ],
  [['all'], ['1', '10', '17']],
])('%j are the plots %j', (said, numbers) => {
  const found = findPlots(world, said);
  expect(found.kind === 'plots' ? found.plots.map(({ number }) => number) : found).toEqual(numbers);
});

test.each([
  [['7'], { kind: 'unknown', said: '7' }],
  [['1', 'U-7'], { kind: 'unknown', said: 'U-7' }],
  [['100'], { kind: 'unknown', said: '100' }],
  [[''], { kind: 'unknown', said: '' }],
  [[], { kind: 'which' }],
])('%j: %j', (said, found) => {
  expect(findPlots(world, said)).toEqual(found);
});
