import { expect, test } from 'vitest';
import { clockFrom, realClock, simulatedClock } from '../src/clock.ts';

test('a simulated clock stands still, goes where it is put, and moves both ways', () => {
  const clock = simulatedClock(1000.9);
  expect(clock.nowMs()).toBe(1000);
  clock.advance(500);
  clock.advance(-700);
  expect(clock.nowMs()).toBe(800);
  clock.set(5);
  expect(clock.nowMs()).toBe(5);
});

test('a clock that starts elsewhere runs on at the pace of the machine', () => {
  const machine = simulatedClock(10_000);
  const clock = clockFrom(500, machine);
  expect(clock.nowMs()).toBe(500);
  machine.advance(250);
  expect(clock.nowMs()).toBe(750);
});

test('the real clock gives whole milliseconds', () => {
  expect(Number.isInteger(realClock.nowMs())).toBe(true);
});
