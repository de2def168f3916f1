/** Which steps of a rain-fed plot wait for rain, how much has fallen, and from which day they can start. */
import type { Day } from '../plan/day.ts';
import { holds } from './frame.ts';
import { countedRain, expectedOn, rainState, rainSum } from './rain.ts';
import { figure, type RainGate, type Rulebook } from './rulebook.ts';
import type { Activity, Rain, Season } from './season.ts';

export interface RainWait {
  readonly rule: string;
  readonly activity: Activity;
  readonly sumMm: number;
  readonly needMm: number;
  /** The step starts no sooner. */
  readonly from: Day;
  /** `met`: enough has fallen. `expected`: the usual rain brings it by then. `unknown`: nobody can say, not before tomorrow. */
  readonly state: 'met' | 'expected' | 'unknown';
  /** The rains began and failed: enough has not fallen since, whatever the sum. */
  readonly falseStart: boolean;
}

/** The gates of the season's way; none where a canal brings the water. */
export function rainWaits(book: Rulebook, season: Season, today: Day): readonly RainWait[] {
  const gates = book.rainGates.filter(({ when }) => holds(when, season.way));
  if (gates.length === 0) return [];
  const rains = countedRain(season, today);
  const trusted = rainState(book, rains, today);
  return gates.map((gate) =>
    waitAt(book, season, gate, { rains, today, falseStart: trusted === 'false-start' }),
  );
}

interface Known {
  readonly rains: readonly Rain[];
  readonly today: Day;
  readonly falseStart: boolean;
}

function waitAt(book: Rulebook, season: Season, gate: RainGate, known: Known): RainWait {
  const { rule, activity, figureIfExpected } = gate;
  const { rains, today } = known;
  const monthly = season.climate?.rainMm;
  const needMm = figure(book, monthly && figureIfExpected ? figureIfExpected : gate.figure);
  const { sumMm, reachedOn } = rainSum(rains, needMm);
  const falseStart = known.falseStart && activity === 'pregerminate';
  const base = { rule, activity, sumMm, needMm, falseStart };
  if (reachedOn !== null && !falseStart) return { ...base, from: reachedOn, state: 'met' };
  const expected = monthly && !falseStart ? expectedOn(needMm - sumMm, today, monthly) : null;
  return expected === null
    ? { ...base, from: today + 1, state: 'unknown' }
    : { ...base, from: expected, state: 'expected' };
}
