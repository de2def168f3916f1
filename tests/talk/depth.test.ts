import { expect, test } from 'vitest';
import { figure } from '../../src/agronomy/rulebook.ts';
import { DEFAULT_RULEBOOK } from '../../src/agronomy/rules/default-rulebook.ts';
import type { Value } from '../../src/say/message.ts';
import { type Came, phone } from '../support/small-phone.ts';

const MIN = figure(DEFAULT_RULEBOOK, 'plough-depth.min');
const MAX = figure(DEFAULT_RULEBOOK, 'plough-depth.max');

function sentence({ effects }: Came, key: string): Readonly<Record<string, Value>> | undefined {
  const say = effects.find((effect) => effect.do === 'say');
  return say?.saying.sentences.find((one) => one.key === key)?.values;
}

test.each([
  [8, 'check.plough-depth-lo', { depth: 8, min: MIN, max: MAX }],
  [MIN - 1, 'check.plough-depth-lo', { depth: MIN - 1, min: MIN, max: MAX }],
  [MIN, 'check.plough-depth-good', { depth: MIN }],
  [12, 'check.plough-depth-good', { depth: 12 }],
  [MAX, 'check.plough-depth-good', { depth: MAX }],
  [MAX + 1, 'check.plough-depth-hi', { depth: MAX + 1, min: MIN, max: MAX }],
  [22, 'check.plough-depth-hi', { depth: 22, min: MIN, max: MAX }],
])('ploughed %i cm deep is recorded and judged as %s', (depth, key, values) => {
  const came = phone().text(`ploughed 1, ${depth} cm`);
  expect(came.recorded).toMatchObject([{ activity: 'plough', measures: { depthCm: depth } }]);
  expect(sentence(came, key)).toEqual(values);
  expect(came.keys.filter((one) => one.startsWith('check.'))).toEqual([key]);
});

test('a shallow depth is told with its reason and the right figures', () => {
  expect(phone().text('ploughed 1, 8 cm').said).toMatch(/8 cm is too shallow: .+ 10-15 cm\./);
});

test('ploughing without a depth is not judged', () => {
  expect(
    phone()
      .text('ploughed 1')
      .keys.filter((one) => one.startsWith('check.')),
  ).toEqual([]);
});

test('two plots ploughed equally deep in one text are judged once', () => {
  const { keys } = phone().text('ploughed 1 and 2, 8 cm');
  expect(keys.filter((one) => one.startsWith('check.'))).toEqual(['check.plough-depth-lo']);
});
