/** Troubles: every one goes to the agent's list with its words; lacks, floods and losses change the plan, and the grower hears how. */
import { standingReports } from '../agronomy/facts.ts';
import { plantingStep } from '../agronomy/frame.ts';
import type { Activity, SeasonChange } from '../agronomy/season.ts';
import type { Trouble, TroubleReading } from '../hear/reading.ts';
import { type Day, parseDay } from '../plan/day.ts';
import type { Effect } from './effect.ts';
import { tellNext } from './next-step.ts';
import { leave, numbered } from './numbered.ts';
import { ownPlots } from './own-plots.ts';
import { inside, officer } from './phrases.ts';
import { planned, remindEffects } from './planned.ts';
import { noPlots, unknownPlot, whichPlot } from './plot-questions.ts';
import { findPlots } from './plots.ts';
import { type Part, type Sentence, spare } from './turn.ts';
import { askWaysOut } from './ways-out.ts';
import type { PlotWorld, World } from './world.ts';

const SOWN: readonly Activity[] = ['pregerminate', 'sow-nursery', 'transplant', 'sow-direct'];

/** A lack whose end is not known: how to tell it later. */
const TELL_THE_END: Readonly<Partial<Record<Trouble, string>>> = {
  'no-water': 'trouble.until-water',
  'no-machine': 'trouble.until-machine',
  'flooded-out': 'trouble.until-flood',
};

/** Writes the trouble down for the agent and plans again with it. */
export function answerTrouble(world: World, reading: TroubleReading, words: string): Part {
  const found = findPlots(world, reading.plots);
  if (found.kind === 'none') return noPlots(world);
  if (found.kind === 'unknown') return unknownPlot(world, found.said);
  if (found.kind === 'which' && reading.lost) return whichPlot(world, [reading]);
  const plots = found.kind === 'plots' ? found.plots : ownPlots(world);
  const until = reading.until === null ? null : parseDay(reading.until);
  const effects: Effect[] = plots.map(({ seasonId }) => ({
    do: 'note-trouble',
    seasonId,
    what: reading.what,
    until,
    words,
  }));
  const part =
    reading.lost && stands(plots) ? lost(world, plots, reading) : lackOrOther(world, plots, reading, until);
  return { ...part, effects: [...effects, ...(part.effects ?? [])] };
}

function lackOrOther(
  world: World,
  plots: readonly PlotWorld[],
  { what, over }: TroubleReading,
  until: Day | null,
): Part {
  const noted: Sentence[] = [
    over
      ? { key: 'trouble.over', values: { officer: officer(world).officer } }
      : { key: 'trouble.noted', values: { what: { key: `trouble.${what}` }, ...officer(world) } },
  ];
  if (what === 'other') noted.push({ key: 'trouble.hurt' });
  const change = lackUntil(what, over ? world.today : until);
  if (change) return planAgain(world, plots, change, noted);
  const tell = over || until !== null ? undefined : TELL_THE_END[what];
  return { say: tell ? [...noted, spare(tell)] : noted };
}

/** A lack with its end is a date that the plan must keep. */
function lackUntil(what: Trouble, until: Day | null): SeasonChange | null {
  if (until === null) return null;
  if (what === 'no-water') return { waterFrom: until };
  if (what === 'flooded-out') return { floodedUntil: until };
  return what === 'no-machine' ? { machineFrom: until } : null;
}

/** Something was sown or planted that can be lost. */
const stands = (plots: readonly PlotWorld[]): boolean =>
  plots.some(({ season }) => standingReports(season).some(({ activity }) => SOWN.includes(activity)));

/** Seedlings that are lost before planting are sown afresh; of a planted crop it is asked whether it stands. */
function lost(world: World, plots: readonly PlotWorld[], reading: TroubleReading): Part {
  const planted = plots.filter((plot) => isPlanted(world, plot));
  const [first] = planted;
  if (first) return askCrop(world, planted, first);
  const key = reading.lost === 'crop' ? 'trouble.crop-lost' : 'trouble.seedlings-lost';
  const noted: Sentence[] = [{ key, values: { inside: inside(plots), ...officer(world) } }];
  const sown = plots.filter(({ season }) =>
    standingReports(season).some(({ activity }) => activity === 'sow-nursery' || activity === 'pregerminate'),
  );
  return sown.length > 0 ? planAgain(world, sown, { nurseryGivenUpOn: world.today }, noted) : { say: noted };
}

function isPlanted(world: World, plot: PlotWorld): boolean {
  const { steps } = planned(world, plot).plan;
  return steps[plantingStep(steps)]?.status === 'done';
}

function askCrop(world: World, planted: readonly PlotWorld[], plot: PlotWorld): Part {
  const values = { inside: inside([plot]) };
  const again = {
    what: { key: 'choice.crop-again' },
    leads: {
      do: 'change-season' as const,
      seasonId: plot.seasonId,
      change: { cropLostOn: world.today },
    },
  };
  const noted = { key: 'trouble.crop-lost', values: { ...values, ...officer(world) } };
  const part = numbered([noted, { key: 'trouble.crop-ask', values }], [again, leave('choice.crop-stands')]);
  const rest: Sentence[] = planted.length > 1 ? [{ key: 'ask.rest' }] : [];
  return { ...part, say: [...part.say, ...rest], topic: { plotId: plot.id, activity: null } };
}

/** What the changed dates mean: the next steps anew, or the question that they raise. */
function planAgain(
  world: World,
  plots: readonly PlotWorld[],
  change: SeasonChange,
  noted: readonly Sentence[],
): Part {
  const plans = plots.map((plot) => planned(world, plot, { season: change }));
  const question = askWaysOut(world, plans);
  const told = question ?? tellNext(world, plans, { named: true, after: lineOf(change) });
  const others: Sentence[] =
    question && plans.length > 1 ? [{ key: 'trouble.others', values: { count: plans.length - 1 } }] : [];
  const changes: Effect[] = plots.map(({ seasonId }) => ({ do: 'change-season', seasonId, change }));
  return {
    ...told,
    say: [...noted, ...others, ...told.say],
    effects: [...changes, ...remindEffects(world, plans), ...(told.effects ?? [])],
  };
}

/** The line of work that the change is about, told first. */
function lineOf(change: SeasonChange) {
  if (change.nurseryGivenUpOn !== undefined) return 'pregerminate';
  return change.machineFrom === undefined ? 'soak' : 'plough';
}
