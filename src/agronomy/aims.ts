/** The wishes of the plan: on which day to plant, and at which gap from each other the steps are best. */
import type { Day } from '../plan/day.ts';
import { earliestAtAims } from '../plan/earliest-at-aims.ts';
import { type Aim, ORIGIN, type Point, type Solution } from '../plan/network.ts';
import type { Fact } from './facts.ts';
import { endOf, plantingStep, startOf, stepOf } from './frame.ts';
import { isKnown, isPast, type Problem } from './problem.ts';
import type { Choice } from './rulebook.ts';
import type { Activity, Way } from './season.ts';
import { nearestWorkday, workEnd } from './working-days.ts';

/** Aims in the order in which due dates are chosen: planting first, then what hangs on it. */
export function aimsOf(problem: Problem, solution: Solution): readonly Aim[] {
  const plant = plantingStep(problem.frame.steps);
  const aims: Aim[] = [...pinned(problem), ...guessed(problem)];
  if (plant >= 0 && !isPast(problem, startOf(plant))) {
    aims.push({ point: startOf(plant), from: ORIGIN, days: plantingWish(problem, solution, startOf(plant)) });
    aims.push(workAim(problem, startOf(plant)));
  }
  aims.push(...harvestWish(problem), ...readyForRain(problem));
  for (const choice of problem.book.choices) {
    for (const aim of chosenAims(problem, choice)) {
      if (!isPast(problem, aim.point)) aims.push(aim, workAim(problem, aim.point));
    }
  }
  return aims;
}

/** Past points come first: the rest hangs on them. Days that are not known are left for last: nothing may hang on a guess. */
function pinned(problem: Problem): Aim[] {
  return problem.facts.flatMap((fact, step) => {
    const known = fact.on ?? fact.startedOn;
    if (fact.state === 'open' || known === null) return [];
    const points = fact.state === 'done' ? [endOf(step), startOf(step)] : [startOf(step)];
    return points.map((point): Aim => ({ point, from: ORIGIN, days: known }));
  });
}

/** Work that came before known work, on a day not known, was most likely done at its best time before it. */
function guessed(problem: Problem): Aim[] {
  const { choices } = problem.book;
  return problem.frame.rules.flatMap(({ rule, from, to, aim }) => {
    const chosen = choices.some((choice) => choice.rule === rule.name && choice.fix === 'from');
    if (aim === null || !chosen || !isPast(problem, from) || !isPast(problem, to)) return [];
    const apart = !isKnown(problem, from) && isKnown(problem, to);
    return apart ? [{ point: from, from: to, days: -aim }] : [];
  });
}

/** The aims of a choice: one end of its rules fixed from the other. */
function chosenAims(problem: Problem, { rule: name, fix, oncePast }: Choice): Aim[] {
  const aims: Aim[] = [];
  for (const { rule, from, to, aim } of problem.frame.rules) {
    if (rule.name !== name || aim === null) continue;
    if (oncePast && !isPast(problem, fix === 'to' ? from : to)) continue;
    aims.push(fix === 'to' ? { point: to, from, days: aim } : { point: from, from: to, days: -aim });
  }
  return aims;
}

/** A crop that ripens by a local date is cut on it. */
function harvestWish({ season, frame, facts }: Problem): Aim[] {
  const step = frame.steps.findIndex(({ activity }) => activity === 'harvest');
  const on = season.way.ripens === 'by-local-date' ? season.harvestOn : undefined;
  if (on === undefined || step < 0 || facts[step]?.state !== 'open') return [];
  return [{ point: startOf(step), from: ORIGIN, days: on }];
}

/** Where rain is held, the plot is made ready for it at once; and ploughed as soon as it is soft. */
const READY_FOR_RAIN: readonly Activity[] = ['clear', 'soak', 'plough'];
const isReady = (activity: Activity, tillage: Way['tillage']) =>
  READY_FOR_RAIN.includes(activity) || (tillage === 'none' && activity === 'flood');

function readyForRain(problem: Problem): Aim[] {
  const { season, frame, facts, today } = problem;
  if (season.way.water !== 'rain-fed') return [];
  return frame.steps.flatMap(({ activity }, step) =>
    isReady(activity, season.way.tillage) && facts[step]?.state === 'open'
      ? [{ point: startOf(step), from: ORIGIN, days: today }, workAim(problem, startOf(step))]
      : [],
  );
}

/** The other end of the same step, its working days away. */
function workAim({ frame, season }: Problem, point: Point): Aim {
  const step = stepOf(point);
  const days = frame.days[step] ?? 1;
  const onward = point === startOf(step);
  const sign = onward ? 1 : -1;
  return {
    point: onward ? endOf(step) : startOf(step),
    from: point,
    days: sign * (days - 1),
    dayAfter: (day) => workEnd(season.restDays, day, days, sign),
  };
}

/** With seedlings growing, their best age; else the first day on which every step has had its best time. */
function plantingWish(problem: Problem, solution: Solution, plant: Point): Day {
  const sown = problem.frame.steps.findIndex(({ activity }) => activity === 'sow-nursery');
  const sownOn = sown < 0 ? null : (problem.facts[sown] as Fact).on;
  if (sownOn !== null) return sownOn + problem.crop.seedlingAge;
  const wishes = [...bestGaps(problem), ...workWishes(problem)];
  return earliestAtAims(problem.frame.points, solution.gaps, wishes)[plant] ?? problem.today;
}

/** The best gaps of rules that are chosen by, to work that is still to come; it begins on a working day. */
function bestGaps(problem: Problem): Aim[] {
  const chosen = new Set(problem.book.choices.map(({ rule }) => rule));
  const rest = problem.season.restDays;
  return problem.frame.rules.flatMap(({ rule, from, to, aim: days }) => {
    if (days === null || !chosen.has(rule.name) || isPast(problem, to)) return [];
    const dayAfter = (day: Day) => nearestWorkday(rest, day + days, 1);
    return [{ point: to, from, days, ...(to === startOf(stepOf(to)) && { dayAfter }) }];
  });
}

/** Work that is still to come takes the days of rest in its midst as well. */
function workWishes(problem: Problem): Aim[] {
  if (!problem.season.restDays) return [];
  return problem.facts.flatMap(({ state }, step) =>
    state === 'open' ? [workAim(problem, startOf(step))] : [],
  );
}
