/** Ways out of a plan that cannot keep its rules, each with the day that makes it work. */
import type { Day } from '../plan/day.ts';
import { type PlotPlan, type Remedy, stepFor } from './plot-plan.ts';
import type { Rulebook } from './rulebook.ts';
import type { Activity, Season } from './season.ts';
import { extraSeedlings } from './variety.ts';

type Replan = (season: Season) => PlotPlan;

const NURSERY: readonly Activity[] = ['pregerminate', 'sow-nursery'];

/** Remedies for the conflicts and for seedlings that will be old; empty when the plan keeps its rules. */
export function remediesOf(
  season: Season,
  book: Rulebook,
  plan: PlotPlan,
  replan: Replan,
): readonly Remedy[] {
  const blocked = (rule: string) => plan.conflicts.some(({ rules }) => rules.includes(rule));
  const older = plan.breaches.some(({ rule, side }) => rule === 'seedling-age' && side === 'hi');
  const remedies: (Remedy | null)[] = [];
  if (older || blocked('seedling-old')) remedies.push(sowAfresh(season, replan));
  if (older && !blocked('seedling-old')) remedies.push(plantOlder(season, book, plan));
  if (blocked('pregerminate')) remedies.push(soakAgain(season, replan));
  if (blocked('block-water')) remedies.push(askWater(season, replan));
  return remedies.filter((remedy) => remedy !== null);
}

const dueOf = (plan: PlotPlan, activity: Activity): Day | null => stepFor(plan, activity)?.due ?? null;

function sowAfresh(season: Season, replan: Replan): Remedy | null {
  const reports = season.reports.filter(({ activity }) => !NURSERY.includes(activity));
  const on = dueOf(replan({ ...season, reports }), 'sow-nursery');
  return on === null ? null : { kind: 'sow-afresh', on };
}

function plantOlder(season: Season, book: Rulebook, plan: PlotPlan): Remedy | null {
  const on = dueOf(plan, 'transplant');
  const sown = stepFor(plan, 'sow-nursery')?.on ?? null;
  if (on === null || sown === null) return null;
  const ageDays = on - sown;
  return {
    kind: 'plant-older',
    on,
    ageDays,
    extraSeedlings: extraSeedlings(book, ageDays, season.varietyDays),
  };
}

function soakAgain(season: Season, replan: Replan): Remedy | null {
  const reports = season.reports.filter(({ activity }) => activity !== 'pregerminate');
  const on = dueOf(replan({ ...season, reports }), 'pregerminate');
  return on === null ? null : { kind: 'soak-again', on };
}

/** The first day on which the plot will need water and the canal is shut. */
function askWater(season: Season, replan: Replan): Remedy | null {
  const { from, to } = season.blockWater;
  const openLonger = replan({ ...season, blockWater: { from, to: null } });
  const needed = (['soak', 'flood', 'puddle'] as const).map((activity) => dueOf(openLonger, activity));
  const on = needed
    .filter((day) => day !== null && (to === null || day > to))
    .sort((a, b) => (a ?? 0) - (b ?? 0))[0];
  return on == null ? null : { kind: 'ask-water', on };
}
