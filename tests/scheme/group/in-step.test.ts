/** Blocks by hand: who is planted with the others, and who is out of step by how many days. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { inStep } from '../../../src/scheme/group/in-step.ts';

const block = (...days: readonly (number | null)[]) =>
  days.map((plantOn, i) => ({ plotId: `p${i}`, areaHa: 0.4, plantOn }));

test('within 14 days nobody is out of step', () => {
  expect(inStep(block(100, 114, 107), 14)).toMatchObject({ spreadDays: 14, outside: [] });
});

test('most plots set the time: the early and the late one are out, the farthest first', () => {
  expect(inStep(block(80, 100, 103, 110, 141, null), 14)).toEqual({
    together: { from: 96, to: 110 },
    spreadDays: 61,
    outside: [
      { plotId: 'p4', byDays: 31 },
      { plotId: 'p0', byDays: -16 },
    ],
    unknown: ['p5'],
  });
});

test('a block of which nothing is known', () => {
  expect(inStep(block(null, null), 14)).toEqual({
    together: null,
    spreadDays: 0,
    outside: [],
    unknown: ['p0', 'p1'],
  });
});

test('no stretch of so many days holds more plots', () => {
  const days = fc.array(fc.integer({ min: 0, max: 60 }), { minLength: 1, maxLength: 20 });
  fc.assert(
    fc.property(days, fc.integer({ min: 0, max: 20 }), (all, within) => {
      const { outside } = inStep(block(...all), within);
      const most = Math.max(
        ...all.map((from) => all.filter((day) => day >= from && day <= from + within).length),
      );
      expect(all.length - outside.length).toBe(most);
    }),
  );
});
