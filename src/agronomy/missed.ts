/** Steps whose moment has passed: they are left out of the plan rather than asked for until harvest. */

import type { Fact } from './facts.ts';
import { stepOf } from './frame.ts';
import { isPast, localHarvest, type Problem } from './problem.ts';
import type { Step } from './rulebook.ts';

/** Open steps that can no longer be done: what they had to come before is past, or their grace days are over. */
export function missedSteps(problem: Problem): ReadonlySet<Step> {
  const missed = new Set<Step>();
  const drained = problem.frame.steps.some(
    ({ activity }, i) => activity === 'drain' && problem.facts[i]?.state === 'done',
  );
  problem.frame.steps.forEach((step, index) => {
    const { state } = problem.facts[index] as Fact;
    // What rides along and was begun is as good as over once the work that it had to come before is.
    if (state === 'done' || (state === 'started' && !step.optional)) return;
    const passes = step.graceDays !== undefined;
    if (overtaken(problem, index) || (passes && (drained || expired(problem, index, step.graceDays))))
      missed.add(step);
  });
  return missed;
}

function overtaken(problem: Problem, index: number): boolean {
  return problem.frame.rules.some(
    ({ from, to, lo, rule }) =>
      !rule.whileOpen && lo !== null && lo >= 0 && stepOf(from) === index && isPast(problem, to),
  );
}

function expired(problem: Problem, index: number, graceDays: number): boolean {
  return problem.frame.rules.some((framed) => {
    const { from, to, lo, hi } = framed;
    const harvest = stepOf(from) === index ? localHarvest(problem, framed) : null;
    if (harvest !== null) return lo !== null && harvest - lo + graceDays < problem.today;
    if (stepOf(to) !== index) return false;
    const since = (problem.facts[stepOf(from)] as Fact).on;
    return since !== null && hi !== null && since + hi + graceDays < problem.today;
  });
}
