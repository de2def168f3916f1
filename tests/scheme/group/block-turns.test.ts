/** A block's turns as its canal and its plots give them: rounds of several blocks, rest days, land under water, who waits. */
import { describe, expect, test } from 'vitest';
import { DEFAULT_RULEBOOK as book } from '../../../src/agronomy/rules/default-rulebook.ts';
import { blockTurns, waitingPlots } from '../../../src/scheme/group/block-turns.ts';
import { waterTurns } from '../../../src/scheme/group/water-turns.ts';
import { day, report, season } from '../../support/seasons.ts';

const PLOTS = [
  { plotId: 'a', areaHa: 0.3 },
  { plotId: 'b', areaHa: 0.3 },
];
/** t = A d / Q: 0.3 ha x 60 mm = 180 m3, at 5 l/s = 18 m3 an hour 10 hours a plot. */
const CANAL = { flowLps: 5, depthMm: 60, lossMmPerDay: 0 };

describe('turns', () => {
  test('begin in the morning, when somebody opens the gate', () => {
    const { turns } = blockTurns(PLOTS, CANAL, 0, 100);
    expect(turns[0]).toMatchObject({ start: { day: 100, hour: 6 }, end: { day: 100, hour: 16 } });
    expect(turns[1]).toMatchObject({ start: { day: 100, hour: 16 }, end: { day: 101, hour: 2 } });
  });

  test('stop at night where the canal is closed', () => {
    const { turns } = blockTurns(PLOTS, { ...CANAL, open: { fromHour: 6, toHour: 18 } }, 0, 100);
    expect(turns[1]).toMatchObject({ start: { day: 100, hour: 16 }, end: { day: 101, hour: 14 } });
  });

  test('wait for the block’s days in the round of the canal', () => {
    const rotation = { start: 98, every: 7, days: 3 };
    const { turns } = blockTurns(PLOTS, { ...CANAL, rotation, open: { fromHour: 6, toHour: 18 } }, 0, 101);
    // Days 98, 99 and 100 are the block's, then 105 and on.
    expect(turns.map(({ start }) => start.day)).toEqual([105, 105]);
    const before = blockTurns(PLOTS, { ...CANAL, rotation, open: { fromHour: 6, toHour: 18 } }, 0, 90);
    expect(before.turns[0]?.start.day).toBe(91);
  });

  test('leave out days of rest', () => {
    const restDays = { weekdays: [], days: [100, 101] };
    expect(blockTurns(PLOTS, { ...CANAL, restDays }, 0, 100).turns[0]?.start.day).toBe(102);
  });

  test('are longer where land is under water already and is topped up first', () => {
    const losing = { ...CANAL, lossMmPerDay: 8 };
    const alone = blockTurns(PLOTS, losing, 0, 100).turns[1]!;
    const beside = blockTurns(PLOTS, losing, 2, 100).turns[1]!;
    const hours = ({ end }: typeof alone) => end.day * 24 + end.hour;
    expect(hours(beside)).toBeGreaterThan(hours(alone));
  });
});

test('land under water is held like land that was soaked in the same round: by the law, and in balance', () => {
  const canal = { flowLps: 6, depthMm: 250, lossMmPerDay: 9, from: 0 };
  const whole = waterTurns([{ plotId: 'h', areaHa: 1.5 }, ...PLOTS], canal);
  const held = waterTurns(PLOTS, { ...canal, heldHa: 1.5 });
  const daysOf = (turns: typeof held.turns) => {
    const [first, last] = [turns.at(-2)!, turns.at(-1)!];
    return last.end.day - first.start.day + (last.end.hour - first.start.hour) / 24;
  };
  expect(daysOf(held.turns)).toBeCloseTo(daysOf(whole.turns), 2);
  expect(held.inM3).toBeCloseTo(held.soakedM3 + held.lostM3, 6);
});

test('a canal that cannot even hold what is under water soaks nothing, and is short by that', () => {
  const found = waterTurns(PLOTS, { flowLps: 1, depthMm: 250, lossMmPerDay: 9, from: 0, heldHa: 2 });
  expect(found.turns).toEqual([]);
  expect(found.without).toEqual(['a', 'b']);
  expect(found.shortLps).toBeCloseTo((9 * 2.6) / 8.64 - 1, 6);
});

test('plots wait until they are flooded, are held until they are drained, and rain-fed ones do neither', () => {
  const today = day('2027-03-20');
  const plots = [
    { id: 'new', season: season([]) },
    { id: 'ploughed', season: season([report('plough', '2027-03-15')]) },
    { id: 'flooded', season: season([report('plough', '2027-03-10'), report('flood', '2027-03-12')]) },
    { id: 'rain', season: season([], { way: { ...season([]).way, water: 'rain-fed' } }) },
  ];
  const found = waitingPlots(plots, book, today);
  expect(found.waiting.map(({ id }) => id)).toEqual(['new', 'ploughed']);
  expect(found.heldHa).toBe(plots[2]!.season.areaHa);
});

test('a canal that is open too seldom comes to an end: it is short, and says by how much', () => {
  const rotation = { start: 100, every: 9, days: 3 };
  const canal = { flowLps: 3, depthMm: 250, lossMmPerDay: 9, rotation, open: { fromHour: 6, toHour: 18 } };
  const plots = Array.from({ length: 9 }, (_, i) => ({ plotId: `p${i}`, areaHa: 0.3 }));
  const restDays = { weekdays: [5], days: [101] };
  const found = blockTurns(plots, { ...canal, restDays }, 0, 100);
  expect(found.turns.length + found.without.length).toBe(9);
  expect(found.without.length).toBeGreaterThan(0);
  expect(found.shortLps).toBeGreaterThan(0);
});
