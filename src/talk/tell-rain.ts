/** Rain that a grower measured: written down for the plots, with the sum and what it opens. */
import { nextStep, type PlanStep, type PlotPlan } from '../agronomy/plot-plan.ts';
import { standingRains } from '../agronomy/rain.ts';
import { figure } from '../agronomy/rulebook.ts';
import type { RainUnit, SumReading } from '../hear/reading.ts';
import { type Day, parseDay } from '../plan/day.ts';
import type { Message } from '../say/message.ts';
import type { Effect } from './effect.ts';
import { tellNext } from './next-step.ts';
import { leave, numbered, type Option } from './numbered.ts';
import { doWords, which } from './phrases.ts';
import { type Planned, planned, remindEffects } from './planned.ts';
import { noPlots, unknownPlot } from './plot-questions.ts';
import { findPlots } from './plots.ts';
import { type Part, type Sentence, saying, spare } from './turn.ts';
import type { KeptRain, NewRain, PlotWorld, World } from './world.ts';

/** Length of each unit in mm. */
const MM: Readonly<Record<RainUnit, number>> = { mm: 1, cm: 10, inch: 25.4 };
/** Less water than this on the plot is not worth a word, in mm. */
const WORTH_TELLING_MM = 10;

/** "Rain 32 yesterday": on the plots that were named, else on all of the phone. */
export function tellRain(world: World, { values, plots: said, on, unit = 'mm' }: SumReading): Part {
  if (world.plots.length === 0) return noPlots(world);
  const found = findPlots(world, said);
  if (found.kind === 'unknown') return unknownPlot(world, found.said);
  const plots = found.kind === 'plots' ? found.plots : world.plots;
  const [value, ...more] = values;
  if (value === undefined) return saying('rain.how-much');
  if (more.length > 0) return saying('rain.one-day');
  const mm = Math.round(value * MM[unit]);
  if (mm > figure(world.rulebook, 'rainfall.most')) return saying('rain.too-much', { mm });
  const day = (on === undefined ? null : parseDay(on)) ?? world.today;
  const rains = plots.map(({ seasonId }): NewRain => ({ seasonId, on: day, mm }));
  const known = plots.find((plot) => keptOn(plot, day).length > 0);
  if (mm === 0 && known && keptOn(known, day).every((rain) => rain.mm === 0)) return noneAgain(plots, day);
  return known ? askKnown(plots, known, rains) : recordRains(world, rains);
}

const keptOn = ({ season }: PlotWorld, day: Day): readonly KeptRain[] =>
  standingRains(season.rains ?? []).filter(({ on }) => on === day);

/** A dry day that was told before. */
function noneAgain(plots: readonly PlotWorld[], day: Day): Part {
  return saying('rain.noted-none', { which: which(plots), day: { day } });
}

/** Rain of that day stands already: the same rain, more of it, or another figure? */
function askKnown(plots: readonly PlotWorld[], known: PlotWorld, rains: readonly NewRain[]): Part {
  const [{ on, mm } = { on: 0, mm: 0 }] = rains;
  const standing = plots.flatMap((plot) => keptOn(plot, on));
  const total = keptOn(known, on).reduce((sum, rain) => sum + rain.mm, 0);
  const corrected = rains.map((rain): NewRain => {
    const [old] = standing.filter(({ seasonId }) => seasonId === rain.seasonId);
    return old ? { ...rain, corrects: old.id } : rain;
  });
  // More than one figure of a day on one plot: one is corrected, the others are taken back.
  const firsts = corrected.flatMap(({ corrects }) => (corrects === undefined ? [] : [corrects]));
  const replaces = standing.flatMap(({ id }) => (firsts.includes(id) ? [] : [id]));
  const instead: Option = {
    what: { key: 'choice.rain-instead', values: { mm } },
    leads: { do: 'record-rain', rains: corrected, replaces },
  };
  const more: Option = {
    what: { key: 'choice.rain-more', values: { mm } },
    leads: { do: 'record-rain', rains, replaces: [] },
  };
  const head = { key: 'rain.known', values: { which: which([known]), mm: total, day: { day: on } } };
  const options = [leave('choice.rain-same'), ...(mm > 0 ? [more] : []), ...(mm === total ? [] : [instead])];
  return { ...numbered([head], options), topic: { plotId: known.id, activity: null } };
}

/** Writes rain down, in place of what it replaces, and says what it opens. */
export function recordRains(world: World, rains: readonly NewRain[], replaces: readonly string[] = []): Part {
  const plots = world.plots.filter(({ seasonId }) => rains.some((rain) => rain.seasonId === seasonId));
  const plans = plots.map((plot) => planned(world, plot, { rain: rains, takenBack: replaces }));
  const [{ on, mm } = { on: world.today, mm: 0 }] = rains;
  const noted: Message = {
    key: mm > 0 ? 'rain.noted' : 'rain.noted-none',
    values: { which: which(plots), ...(mm > 0 && { mm }), day: { day: on } },
  };
  const effects: Effect[] = [
    ...(replaces.length > 0 ? [{ do: 'undo' as const, reports: replaces }] : []),
    ...rains.map((rain): Effect => ({ do: 'record-rain', rain })),
    ...remindEffects(world, plans),
  ];
  const held = plans.filter(({ season }) => season.way.water === 'rain-fed');
  const next = held.length > 0 ? tellNext(world, held) : { say: [] };
  return {
    ...next,
    say: [noted, ...opened(world, held), ...dry(world, held), ...sumOf(held), ...next.say],
    effects: [...effects, ...(next.effects ?? [])],
  };
}

/** The first step that this rain was enough for, on the first plot that has one. */
function opened(world: World, plans: readonly Planned[]): Sentence[] {
  for (const { plot, season, plan } of plans) {
    const before = planned(world, plot).plan;
    const step = plan.steps.find(
      (one) =>
        one.status !== 'done' && !one.waitsFor && waited(before, one) && one.activity !== 'pregerminate',
    );
    if (step)
      return [{ key: 'rain.enough', values: { do: doWords(world.rulebook, step.activity, season.way) } }];
  }
  return [];
}

function waited({ steps }: PlotPlan, { activity, round }: PlanStep): boolean {
  return steps.some((one) => one.activity === activity && one.round === round && one.waitsFor !== null);
}

/** Rains that began and failed, where seed waits for them. */
function dry({ rulebook }: World, plans: readonly Planned[]): Sentence[] {
  const failed = plans.find(({ plan }) => plan.steps.some(({ waitsFor }) => waitsFor?.falseStart));
  const count = failed?.plan.water?.dryDays ?? 0;
  const long = count >= figure(rulebook, 'rainfall.dry-spell');
  return long ? [{ key: 'rain.false-start', values: { count } }] : [];
}

/** The sum where no waiting step tells it, and what should stand on the plot. */
function sumOf([first]: readonly Planned[]): Sentence[] {
  if (!first?.plan.water || nextStep(first.plan)?.waitsFor) return [];
  const { sumMm, standingMm } = first.plan.water;
  const from = first.season.rainFrom;
  const say: Sentence[] =
    from === undefined ? [] : [spare('rain.sum', { sum: Math.floor(sumMm), from: { day: from } })];
  if (standingMm >= WORTH_TELLING_MM) say.push(spare('rain.stands', { depth: Math.round(standingMm / 10) }));
  return say;
}
