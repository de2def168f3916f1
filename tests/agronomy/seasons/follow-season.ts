/**
 * Follows one season along a table: what is reported on which day, and what the plan then says. An agronomist can read
 * and check the tables; every day in them was counted by hand. Lines without "|" give the reasons and are not compared.
 *
 *     day   | reported | in the field               | in the nursery                 | plant  | drain | harvest
 *     2 Mar | soak     | plough 5 Mar [4 Mar, 9 Mar] | pregerminate 4 Mar [2 Mar, -] | 26 Mar | 1 Jul | 11 Jul
 *
 * "plough 5 Mar [4 Mar, 9 Mar]": best on the 5th, from the 4th to the 9th; "-" is no bound, or nothing to do. "end": the
 * work is under way and the days are those of its end. "83/200 mm": so much of the rain that the step waits for has
 * fallen, by the usual rain enough on that day; with "?" nobody can say, not before tomorrow. What is left when all is
 * done is the day till which the plot rests. An eighth column names lapses, breaches and conflicts; without it there
 * are none.
 *
 * The gaps that the tables count with (lo, best, hi in days; each with its source):
 * - clear -> soak 0, 1 (common practice); soak -> plough 2, 3, 7 (common practice; IRRI wet preparation 3-7)
 * - plough -> rough-level 0, 1 and -> flood 0, 1, 3 (common practice); rough-level comes before flood
 * - flood -> puddle 14, -, 21 (common practice; Dept of Agriculture Sri Lanka, 14 days between first and second tillage)
 * - puddle -> level 0, 0, 2 (common practice); level -> plant 1, 1, 3 (Dept of Agriculture Sri Lanka; PhilRice 2007)
 * - plough -> plant 17, 21, 35 (PhilRice 2007: 21; PalayCheck: 21-30)
 * - pregerminate -> sow 2, 2, 3 (PhilRice/PinoyRice 24 + 24 h; Dept of Agriculture Sri Lanka 24 + 48 h)
 * - seedling age at planting by variety 16, 20 or 25, from 4 days less (never under 12) to 10 more (IIRR); all planted
 *   before 40 days (Pakistan trial 2008-09)
 * - seed is not soaked before the plot is (common practice)
 * - planted -> gap-fill 3, 5, 7 (PhilRice); -> weed 14, 18, 21 and 35, 38, 42 (from memory); -> first feed 14, 18, 21
 *   (14, 18, 21 from memory; stages as in Yoshida 1981)
 * - sown -> second feed: variety + 7 - 65 days (IRRI phases), less 7, 6 or 5 (Masagana 99)
 * - sown -> harvest: variety + 7 (Yoshida Table 1.6), 3 less to 7 more; drain -> harvest 7, 10, 15 (IRRI; RKMP)
 * - harvest -> next sowing 30 (PalayCheck Key Check 3)
 * The planting day is the first on which every step before it has had its best days; then the steps are set from it.
 */
import { planPlot } from '../../../src/agronomy/plan-plot.ts';
import { type PlanStep, type PlotPlan, stepFor } from '../../../src/agronomy/plot-plan.ts';
import { DEFAULT_RULEBOOK } from '../../../src/agronomy/rules/default-rulebook.ts';
import { ACTIVITIES, type Activity, type Report, type Season } from '../../../src/agronomy/season.ts';
import { type Day, dayFromParts, dayParts } from '../../../src/plan/day.ts';

const YEAR = 2027;
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const NURSERY: readonly Activity[] = ['pregerminate', 'sow-nursery'];

/** The day of "5 Mar" in 2027; a table with another text is broken and throws. */
export function dayOf(text: string): Day {
  const [dayOfMonth, month] = text.split(' ');
  const found = dayFromParts(YEAR, MONTHS.indexOf(month ?? '') + 1, Number(dayOfMonth));
  if (found === null) throw new Error(`no day: ${text}`);
  return found;
}

const textOf = (on: Day | null | undefined): string => {
  if (on == null) return '-';
  const { month, dayOfMonth } = dayParts(on);
  return `${dayOfMonth} ${MONTHS[month - 1]}`;
};

/** The rows of a table, each a list of cells, without its heading and its reasons. */
export function rowsOf(table: string): readonly (readonly string[])[] {
  const lines = table.split('\n').filter((line) => line.includes('|'));
  const rows = lines.slice(1).map((line) => line.split('|').map((cell) => cell.trim()));
  return rows.map((row) => [...row, ...Array<string>(8 - row.length).fill('')]);
}

/** The same rows as the plan gives them, from the first two cells of each. */
export function followSeason(start: Season, table: string): readonly (readonly string[])[] {
  let season = start;
  return rowsOf(table).map(([on = '', reported = '']) => {
    const today = dayOf(on);
    for (const one of reported.split(',')) season = { ...season, ...changeBy(season, one.trim(), today) };
    return [on, reported, ...cellsOf(planPlot(season, DEFAULT_RULEBOOK, today))];
  });
}

function changeBy(season: Season, reported: string, on: Day): Partial<Season> {
  if (reported === '-') return {};
  const mm = /^rain (\d+) mm$/.exec(reported)?.[1];
  if (mm !== undefined) return { rains: [...(season.rains ?? []), { on, mm: Number(mm) }] };
  const harvest = /^harvest is on (.+)$/.exec(reported)?.[1];
  if (harvest !== undefined) return { harvestOn: dayOf(harvest) };
  const [name, stage] = reported.split(/ (?=started$|half done$)/);
  const activity = ACTIVITIES.find((one) => one === name);
  if (!activity) throw new Error(`no report: ${reported}`);
  const report: Report = {
    activity,
    stage: stage ? 'started' : 'finished',
    on,
    ...(stage === 'half done' && { measures: { share: 0.5 } }),
  };
  return { reports: [...season.reports, report] };
}

function cellsOf(plan: PlotPlan): readonly string[] {
  const todo = plan.steps.filter((step) => step.status !== 'done' && !step.optional && step.due !== null);
  const first = (steps: readonly PlanStep[]) =>
    steps.reduce<PlanStep | null>((next, step) => (next && next.due! <= step.due! ? next : step), null);
  const field = first(todo.filter(({ activity }) => !NURSERY.includes(activity)));
  const nursery = first(todo.filter(({ activity }) => NURSERY.includes(activity)));
  const due = (activity: Activity) => {
    const step = stepFor(plan, activity);
    return step?.status === 'started' ? '-' : textOf(step?.due);
  };
  const planting = stepFor(plan, 'transplant') ? 'transplant' : 'sow-direct';
  return [
    field || plan.fallowUntil === null ? stepText(field) : `rest till ${textOf(plan.fallowUntil)}`,
    stepText(nursery),
    due(planting),
    due('drain'),
    due('harvest'),
    [
      ...plan.lapses.map(({ rule, byDays }) => `lapse ${rule} ${byDays}`),
      ...plan.breaches.map(({ rule, byDays }) => `breach ${rule} ${byDays}`),
      ...plan.conflicts.map(({ rules }) => `conflict ${rules.join(' + ')}`),
    ].join(', '),
  ];
}

function stepText(step: PlanStep | null): string {
  if (!step) return '-';
  const { activity, status, earliest, due, latest, waitsFor } = step;
  const days = `${activity} ${textOf(due)} [${textOf(earliest)}, ${textOf(latest)}]`;
  const rain = waitsFor ? ` ${waitsFor.sumMm}/${waitsFor.needMm} mm` : '';
  const doubt = waitsFor?.state === 'unknown' ? ' ?' : '';
  const failed = waitsFor?.falseStart ? ' false start' : '';
  return `${status === 'started' ? 'end ' : ''}${days}${rain}${doubt}${failed}`;
}
