/** What a way out costs the grower, beside the days; `name` is the message `cost.<name>`. */
import type { RemedyKind } from './plot-plan.ts';
import type { Cost } from './rulebook.ts';

const cost = (name: string, text: string): Cost => ({ rank: 0, name, text });

export const REMEDY_COSTS: Readonly<Record<RemedyKind, Cost>> = {
  'sow-afresh': cost('seed-again', 'seed and nursery work once more'),
  'plant-older': cost('few-tillers', 'old seedlings tiller poorly'),
  'soak-again': cost('seed-lost', 'the soaked seed is lost'),
  'ask-water': cost('others-wait', 'others may have to wait for their water'),
  'do-again': cost('work-again', 'the work is done once more'),
  'more-teams': cost('help-paid', 'help must be found and paid'),
  'change-way': cost('soil-unturned', 'the soil stays unturned and more weeds come'),
  'tell-group': cost('out-of-step', 'the plot is out of step with its neighbours'),
  'go-on': cost('none', 'no known cost'),
};

/** What it costs when rules that cannot be broken clash, by the one that the clash turns on. */
const CONFLICT_COSTS: Readonly<Record<string, Cost>> = {
  'seedling-old': cost('seedlings-lost', 'seedlings this old may give half the crop'),
  pregerminate: cost('seed-lost', 'the soaked seed is lost'),
  'block-water': cost('no-water-then', 'the canal is shut when the plot needs water'),
};

/** The cost of a clash of these rules; the first that is known counts. */
export function conflictCost(rules: readonly string[]): Cost {
  const known = rules.find((rule) => rule in CONFLICT_COSTS);
  return known === undefined
    ? cost('dates-lost', 'the dates cannot all be kept')
    : (CONFLICT_COSTS[known] as Cost);
}
