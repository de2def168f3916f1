/** Says whether work was well done: depths that were texted, and rules that it came too soon or too late for. */
import { depthLapses } from '../agronomy/lapses.ts';
import type { Lapse, PlotPlan } from '../agronomy/plot-plan.ts';
import { figure } from '../agronomy/rulebook.ts';
import type { Judged } from './doubt.ts';
import { numbersFor } from './numbers.ts';
import { dueWords } from './phrases.ts';
import { type Planned, planned } from './planned.ts';
import type { Sentence } from './turn.ts';
import type { NewReport, PlotWorld, World } from './world.ts';

/** What is said of the work itself, and the rule that WHY then explains. */
export interface Checked {
  readonly say: readonly Sentence[];
  readonly rule: string | null;
}

/** Depths that were texted, and rules that this report has broken. */
export function checks(world: World, judged: readonly Judged[], plans: readonly Planned[]): Checked {
  const sentences: Sentence[] = [];
  let rule: string | null = null;
  for (const { plot, verdict } of judged) {
    if (verdict.kind !== 'sure') continue;
    const plan = plans.find((one) => one.plot === plot)?.plan;
    sentences.push(...depthCheck(world, verdict.report), ...levelCheck(world, verdict.report, plan));
    rule ??= depthLapses({ book: world.rulebook }, verdict.report)[0]?.rule ?? null;
  }
  const lapses = plans
    .filter(({ plan }) => plan.lapses.length > 0)
    .flatMap(({ plan, plot }) =>
      newLapses(world, beyond(plan.lapses, planned(world, plot).plan.lapses), plot, judged),
    );
  const worst = lapses.reduce<Lapse | null>(
    (most, lapse) => (most && most.cost.rank >= lapse.cost.rank ? most : lapse),
    null,
  );
  if (worst?.byDays) {
    rule = worst.rule;
    sentences.push({
      key: `lapse.${worst.side}`,
      values: { count: worst.byDays, cost: { key: `cost.${worst.cost.name}` } },
    });
  }
  const seen = new Set<string>();
  const say = sentences.filter(
    (sentence) => !seen.has(JSON.stringify(sentence)) && seen.add(JSON.stringify(sentence)),
  );
  return { say, rule };
}

/** The days that an uneven plot costs, and whether levelling it again is quicker than waiting. */
function levelCheck(world: World, { activity }: NewReport, plan: PlotPlan | undefined): Sentence[] {
  const uneven = activity === 'level' ? plan?.unevenness : null;
  if (!uneven) return [];
  const { daysLost, plantOn, again } = uneven;
  const lost = { key: 'check.uneven-lost', values: { count: daysLost, day: { day: plantOn } } };
  const due = again && dueWords('level', again.on, world.today);
  const level = due
    ? { key: 'check.uneven-again', values: { due, planting: { day: again.plantOn } } }
    : { key: 'check.uneven-wait' };
  return daysLost > 0 ? [lost, level] : [level];
}

function depthCheck(world: World, report: NewReport): Sentence[] {
  const { rulebook: book } = world;
  const [lapse] = depthLapses({ book }, report);
  const depth = report.measures.depthCm;
  if (lapse?.rule === 'plough-depth' && depth !== undefined) {
    const key = `check.plough-depth-${lapse.side}`;
    return [{ key, values: { depth, ...numbersFor(book, key) } }];
  }
  if (lapse?.rule === 'level-range') {
    const range = figure(book, 'level-range.max') + (lapse.byCm ?? 0);
    return [{ key: 'check.level-range-hi', values: { range, ...numbersFor(book, 'check.level-range-hi') } }];
  }
  return report.activity === 'plough' && depth !== undefined
    ? [{ key: 'check.plough-depth-good', values: { depth } }]
    : [];
}

/** Lapses that were not there before; the same one may be there once more. */
function beyond(lapses: readonly Lapse[], before: readonly Lapse[]): readonly Lapse[] {
  const left = before.map((lapse) => JSON.stringify(lapse));
  return lapses.filter((lapse) => {
    const at = left.indexOf(JSON.stringify(lapse));
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
}

/** Lapses in which this text's own work came too soon or too late. */
function newLapses(
  world: World,
  lapses: readonly Lapse[],
  plot: PlotWorld,
  judged: readonly Judged[],
): readonly Lapse[] {
  const worked = judged.flatMap(({ plot: other, verdict }) =>
    other === plot && verdict.kind === 'sure' ? [verdict.report.activity] : [],
  );
  return lapses.filter(({ rule, byDays }) => {
    const rules = world.rulebook.rules.filter((one) => one.name === rule);
    return byDays !== undefined && rules.some(({ to }) => worked.includes(to.activity));
  });
}
