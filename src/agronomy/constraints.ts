/** From a season to the planner's network: reports pin points, work takes days, rules are gaps, today bounds what is open. */
import type { Day } from '../plan/day.ts';
import { type Gap, type Network, ORIGIN } from '../plan/network.ts';
import { calendarGaps, DROP_FIRST, harvestGaps, must, targetGaps } from './calendar-gaps.ts';
import type { Fact } from './facts.ts';
import { endOf, type FramedRule, startOf, stepOf } from './frame.ts';
import { isKnown, isPast, localHarvest, type Problem } from './problem.ts';
import type { Rulebook } from './rulebook.ts';
import type { Activity, Season } from './season.ts';
import { nearestWorkday, workEnd } from './working-days.ts';

/** All constraints of the season on this day. Rules between two points in the past are left to the lapses. */
export function networkOf(problem: Problem): Network {
  const gaps: Gap[] = [];
  problem.frame.steps.forEach((_, step) => {
    gaps.push(...stepGaps(problem, step));
  });
  for (const framed of problem.frame.rules) {
    const [from, to] = [isPast(problem, framed.from), isPast(problem, framed.to)];
    if (from && to) gaps.push(...undatedGaps(problem, framed));
    if (framed.rule.whileOpen ? from || to : from && to) continue;
    if (hasNoWayOut(problem, framed)) continue;
    gaps.push(...(fromLocalDate(problem, framed) ?? ruleGaps(framed)));
  }
  return { points: problem.frame.points, gaps: [...gaps, ...targetGaps(problem), ...harvestGaps(problem)] };
}

/** Work done on a day not known lies where the rules put it, beside work whose day is known; as far as they can. */
function undatedGaps(problem: Problem, framed: FramedRule): readonly Gap[] {
  const undated = isKnown(problem, framed.from) !== isKnown(problem, framed.to);
  return undated ? ruleGaps(framed).filter(({ strength }) => strength === 'should') : [];
}

/** A rule that yields to its way out, broken by work under way, has none any more: planted seedlings are not sown afresh. */
function hasNoWayOut(problem: Problem, { rule, from, to, hi }: FramedRule): boolean {
  const { facts, frame } = problem;
  const step = stepOf(to);
  if (rule.yieldsAt === undefined || facts[step]?.state !== 'started') return false;
  const since = facts[stepOf(from)]?.on ?? null;
  const ends = goingOnGaps(problem, step, frame.days[step] ?? 1);
  const soonest = Math.max(...ends.map((gap) => (gap.from === ORIGIN ? (gap.lo ?? 0) : 0)));
  return since === null || (hi !== null && since + hi < soonest);
}

function stepGaps(problem: Problem, step: number): Gap[] {
  const fact = problem.facts[step] as Fact;
  const { activity } = problem.frame.steps[step] as { activity: Activity };
  const days = problem.frame.days[step] ?? 1;
  const [start, end] = [startOf(step), endOf(step)];
  const report = `report:${activity}`;
  switch (fact.state) {
    case 'done':
      return doneGaps(problem, step, days);
    case 'started':
      return [
        fact.startedOn === null
          ? must(ORIGIN, start, null, problem.today, report)
          : must(ORIGIN, start, fact.startedOn, fact.startedOn, report),
        ...goingOnGaps(problem, step, days),
      ];
    case 'open':
      return [
        must(ORIGIN, start, problem.today, null, 'today'),
        must(start, end, days - 1, days > 1 && problem.season.restDays ? null : days - 1, `work:${activity}`),
        ...calendarGaps(problem, activity, start),
      ];
  }
}

/** Work under way ends when its days are over, on no day of rest; half-done work when the rest of them are. */
function goingOnGaps({ facts, frame, season, today }: Problem, step: number, days: number): Gap[] {
  const { startedOn, part } = facts[step] as Fact;
  const [start, end] = [startOf(step), endOf(step)];
  const work = `work:${(frame.steps[step] as { activity: Activity }).activity}`;
  const now = must(ORIGIN, end, nearestWorkday(season.restDays, today, 1), null, 'today');
  if (part) {
    const left = Math.max(1, Math.ceil((1 - part.share) * days - 1e-9));
    const from = nearestWorkday(season.restDays, part.on + 1, 1);
    return [must(ORIGIN, end, workEnd(season.restDays, from, left), null, work), now];
  }
  if (startedOn === null) return [must(start, end, days - 1, null, work), now];
  return [must(ORIGIN, end, workEnd(season.restDays, startedOn, days), null, work), now];
}

/** A finished step is pinned at its end; done on an unknown day, it lies before the known work that implies it. */
function doneGaps(problem: Problem, step: number, days: number): Gap[] {
  const fact = problem.facts[step] as Fact;
  const [start, end] = [startOf(step), endOf(step)];
  const report = `report:${(problem.frame.steps[step] as { activity: Activity }).activity}`;
  if (fact.on === null) {
    return [must(ORIGIN, end, null, latestEnd(problem, step), report), must(start, end, 0, null, report)];
  }
  const [from, to] = startSpan(problem.season, fact, days) as readonly [Day, Day];
  return [must(ORIGIN, end, fact.on, fact.on, report), must(ORIGIN, start, from, to, report)];
}

/** First and last day on which a step that ended on a known day can have begun; null when unknown. */
export function startSpan({ restDays }: Season, fact: Fact, days: number): readonly [Day, Day] | null {
  if (fact.startedOn !== null) return [fact.startedOn, fact.startedOn];
  return fact.on === null ? null : [workEnd(restDays, fact.on, days, -1), fact.on];
}

function latestEnd(problem: Problem, step: number): Day {
  const { steps } = problem.frame;
  const days = steps.flatMap((later, index) => {
    const fact = problem.facts[index] as Fact;
    const known = fact.startedOn ?? fact.on;
    return known !== null &&
      implies(problem.book, later.activity, (steps[step] as { activity: Activity }).activity)
      ? [known]
      : [];
  });
  return Math.min(problem.today, ...days);
}

function implies(book: Rulebook, later: Activity, earlier: Activity): boolean {
  const before = book.steps.find((step) => step.activity === later)?.implies ?? [];
  return before.includes(earlier) || before.some((activity) => implies(book, activity, earlier));
}

/** What comes so long before a local harvest date is counted from the date: late work before it moves no harvest. Null for other rules. */
function fromLocalDate(problem: Problem, framed: FramedRule): Gap[] | null {
  const on = localHarvest(problem, framed);
  if (on === null) return null;
  const before = (days: number | null) => (days === null ? null : days - on);
  return ruleGaps({ ...framed, to: ORIGIN, lo: before(framed.lo), hi: before(framed.hi) });
}

function ruleGaps({ rule, from, to, lo, hi }: FramedRule): Gap[] {
  if (rule.strength === 'aim' || (lo === null && hi === null)) return [];
  const gap: Gap = {
    from,
    to,
    lo,
    hi,
    strength: rule.strength,
    rule: rule.name,
    ...(rule.costLo && { costLo: rule.costLo.rank }),
    ...(rule.costHi && { costHi: rule.costHi.rank }),
    ...(rule.yieldsAt !== undefined && { yieldsAt: rule.yieldsAt, dropRank: DROP_FIRST }),
  };
  const keepsOrder = rule.strength === 'should' && !rule.whileOpen && lo !== null && lo >= 0;
  return keepsOrder ? [gap, must(from, to, 0, null, `order:${rule.name}`)] : [gap];
}
