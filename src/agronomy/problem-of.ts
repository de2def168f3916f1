/** Poses a season as a planning problem: its steps and rules, what the reports tell, and what is left out. */
import type { Day } from '../plan/day.ts';
import { cropDays } from './crop-days.ts';
import { factsOf } from './facts.ts';
import { frameOf } from './frame.ts';
import { missedSteps } from './missed.ts';
import type { Problem } from './problem.ts';
import { rainWaits } from './rain-gates.ts';
import type { Rulebook, Step } from './rulebook.ts';
import type { Season } from './season.ts';

/** The problem of a season on a day, its nursery sown (or to be sown) on `sown`. Steps that are missed or not dated are left out. */
export function problemOf(season: Season, book: Rulebook, today: Day, sown: Day): Problem {
  const crop = cropDays(book, season, sown);
  const whole = frameOf(book, season, crop);
  const all: Problem = {
    season,
    book,
    today,
    frame: whole,
    facts: factsOf(book, season, whole.steps),
    crop,
    rainWaits: rainWaits(book, season, today),
  };
  const left = new Set([...missedSteps(all), ...undatedSteps(all)]);
  if (left.size === 0) return all;
  const frame = frameOf(book, season, crop, (step) => left.has(step));
  return { ...all, frame, facts: factsOf(book, season, frame.steps) };
}

/** A crop that ripens by a local date is not dated beyond its first weeks until that date is known. */
const HANG_ON_HARVEST: readonly string[] = ['topdress 2', 'drain 1', 'harvest 1'];

export const harvestUnknown = ({ way, harvestOn }: Season): boolean =>
  way.ripens === 'by-local-date' && harvestOn === undefined;

function undatedSteps({ season, frame, facts }: Problem): readonly Step[] {
  if (!harvestUnknown(season)) return [];
  return frame.steps.filter(
    ({ activity, round }, index) =>
      facts[index]?.state === 'open' && HANG_ON_HARVEST.includes(`${activity} ${round ?? 1}`),
  );
}
