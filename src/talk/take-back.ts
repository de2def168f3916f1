/** UNDO: takes back what the last text recorded, or one report that the grower says is wrong. */
import type { Day } from '../plan/day.ts';
import type { Effect } from './effect.ts';
import { tellNext } from './next-step.ts';
import { leave, numbered } from './numbered.ts';
import { activityName, doneSentence, inside, which } from './phrases.ts';
import { planned, remindEffects } from './planned.ts';
import type { Undoable } from './state.ts';
import { type Part, type Sentence, saying } from './turn.ts';
import type { KeptRain, KeptReport, World } from './world.ts';

/** Work of longer ago is not taken back by a slip: the line asks first. */
const ASK_AFTER_DAYS = 1;

/** Takes back what the newest text changed, or all reports of the newest text that recorded something. */
export function undoLast(world: World, undoable: Undoable | null): Part {
  if (undoable && undoable.on >= world.today - ASK_AFTER_DAYS) return undoChange(world, undoable);
  const { reports = [], rains = [] } = world.lastBatch ?? {};
  const [first] = reports;
  if (!first) return rains.length > 0 ? takeBack(world, [], rains) : saying('undo.nothing');
  const newest = Math.max(...reports.map(({ on }) => on ?? world.today));
  return newest < world.today - ASK_AFTER_DAYS
    ? askFirst(world, first, [...reports, ...rains])
    : takeBack(world, reports, rains);
}

/** Dates, choices and losses that were told by the last text are as they were before it. */
function undoChange(world: World, { seasons }: Undoable): Part {
  const plans = seasons.flatMap(({ seasonId, before }) => {
    const plot = world.plots.find((one) => one.seasonId === seasonId);
    return plot ? [planned(world, plot, { season: before })] : [];
  });
  const next = tellNext(world, plans);
  const changes = seasons.map(
    ({ seasonId, before }): Effect => ({
      do: 'change-season',
      seasonId,
      change: before,
    }),
  );
  return {
    ...next,
    say: [{ key: 'undo.change', values: { inside: inside(plans.map(({ plot }) => plot)) } }, ...next.say],
    effects: [...changes, ...remindEffects(world, plans), ...(next.effects ?? [])],
    undone: true,
  };
}

function askFirst(world: World, first: KeptReport, all: readonly { readonly id: string }[]): Part {
  const plots = world.plots.filter(({ seasonId }) => seasonId === first.seasonId);
  const head = doneSentence(first.activity, plots, first.on, 'undo.sure', 'undo.sure-unknown');
  const takeIt = {
    what: { key: 'choice.take-back' },
    leads: { do: 'undo' as const, reports: all.map(({ id }) => id) },
  };
  return numbered([head], [takeIt, leave('choice.keep')]);
}

/** Takes back reports by id, as far as they still stand. */
export function undoReports(world: World, ids: readonly string[]): Part {
  const reports = world.plots.flatMap(({ season }) => season.reports.filter(({ id }) => ids.includes(id)));
  const rains = world.plots.flatMap(({ season }) =>
    (season.rains ?? []).filter(({ id }) => ids.includes(id)),
  );
  return reports.length + rains.length > 0 ? takeBack(world, reports, rains) : saying('undo.nothing');
}

function takeBack(world: World, reports: readonly KeptReport[], rains: readonly KeptRain[] = []): Part {
  const ids = [...reports, ...rains].map(({ id }) => id);
  const plots = world.plots.filter(({ seasonId }) =>
    [...reports, ...rains].some((kept) => kept.seasonId === seasonId),
  );
  const plans = plots.map((plot) => planned(world, plot, { takenBack: ids }));
  const next = tellNext(world, plans);
  return {
    ...next,
    say: [...said(world, reports), ...rainSaid(rains), ...next.say],
    effects: [{ do: 'undo', reports: ids }, ...remindEffects(world, plans), ...(next.effects ?? [])],
  };
}

/** Rain of one text is one figure on one day. */
function rainSaid([rain]: readonly KeptRain[]): Sentence[] {
  return rain ? [{ key: 'rain.taken-back', values: { mm: rain.mm, day: { day: rain.on } } }] : [];
}

/** One sentence for each kind of work and day; past two, only how many more. */
function said(world: World, reports: readonly KeptReport[]): Sentence[] {
  const groups = new Map<string, { report: KeptReport; seasons: string[] }>();
  for (const report of reports) {
    const key = `${report.activity} ${report.stage} ${report.on}`;
    const group = groups.get(key);
    if (group) group.seasons.push(report.seasonId);
    else groups.set(key, { report, seasons: [report.seasonId] });
  }
  const all = [...groups.values()];
  const more = all.slice(2).length;
  const sentences = all.slice(0, 2).map(({ report, seasons }): Sentence => {
    const plots = world.plots.filter(({ seasonId }) => seasons.includes(seasonId));
    const on: Day | null = report.on;
    if (report.stage === 'started' && on !== null) {
      const activity = activityName(report.activity);
      return { key: 'undo.started', values: { which: which(plots), activity, day: { day: on } } };
    }
    return doneSentence(report.activity, plots, on, 'undo.done', 'undo.done-unknown');
  });
  return more > 0 ? [...sentences, { key: 'undo.more', values: { count: more } }] : sentences;
}
