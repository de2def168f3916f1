/** Seasons for tests: one plot of the main way, and shorthand for its reports. */
import type { Activity, Report, Season, Stage } from '../../src/agronomy/season.ts';
import { type Day, parseDay } from '../../src/plan/day.ts';

/** A day from "2027-03-10"; a test with another text is broken and throws. */
export function day(text: string): Day {
  const found = parseDay(text);
  if (found === null) throw new Error(`no day: ${text}`);
  return found;
}

export function report(
  activity: Activity,
  on: string | null,
  stage: Stage = 'finished',
  depthCm?: number,
): Report {
  return {
    activity,
    stage,
    on: on === null ? null : day(on),
    ...(depthCm !== undefined && { measures: { depthCm } }),
  };
}

const OPEN = { from: null, to: null };

/** 0.4 ha, two-wheel tractor, wet-bed nursery, a variety of 120 days; nothing reported. */
export function season(reports: readonly Report[] = [], change: Partial<Season> = {}): Season {
  return {
    way: {
      water: 'irrigated',
      tillage: 'two-wheel',
      establishment: 'transplant',
      nursery: 'wet-bed',
      ripens: 'by-days',
    },
    areaHa: 0.4,
    varietyDays: 120,
    blockWater: OPEN,
    target: OPEN,
    reports,
    ...change,
  };
}
