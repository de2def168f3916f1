/** One plot's season as JSON, in and out: what the plan command reads and prints. */
import { z } from 'zod';
import { type Day, isoDay, parseDay } from '../plan/day.ts';
import type { PlanStep, PlotPlan, Unevenness } from './plot-plan.ts';
import type { RainWait } from './rain-gates.ts';
import { conflictCost } from './remedy-costs.ts';
import { ACTIVITIES, CLIMATE_BOUNDS, type Season, VARIETY_DAYS, WAY_VALUES } from './season.ts';
import type { StandingWater } from './standing-water.ts';

const day = z.string().transform((text, context): Day => {
  const found = parseDay(text);
  if (found !== null) return found;
  context.addIssue({ code: 'custom', message: `"${text}" is not a day (write YYYY-MM-DD)` });
  return z.NEVER;
});
const dayOrNull = day.nullable().default(null);
export const spanSchema = z
  .strictObject({ from: dayOrNull, to: dayOrNull })
  .default({ from: null, to: null });

export const waySchema = z.strictObject({
  water: z.enum(WAY_VALUES.water).default('irrigated'),
  tillage: z.enum(WAY_VALUES.tillage),
  establishment: z.enum(WAY_VALUES.establishment).default('transplant'),
  nursery: z.enum(WAY_VALUES.nursery).default('wet-bed'),
  ripens: z.enum(WAY_VALUES.ripens).default('by-days'),
});

/** The parts of a way that a block gives to those who join in it. */
export const joinWaySchema = z.strictObject({
  water: z.enum(WAY_VALUES.water).exactOptional(),
  establishment: z.enum(WAY_VALUES.establishment).exactOptional(),
  nursery: z.enum(WAY_VALUES.nursery).exactOptional(),
  ripens: z.enum(WAY_VALUES.ripens).exactOptional(),
});

const measures = z.strictObject({
  depthCm: z.number().nonnegative().exactOptional(),
  heightCm: z.number().nonnegative().exactOptional(),
  spotsCm: z.array(z.number()).exactOptional(),
  amount: z.strictObject({ value: z.number(), unit: z.string() }).exactOptional(),
  share: z.number().gt(0).lt(1).exactOptional(),
});

const report = z.strictObject({
  activity: z.enum(ACTIVITIES),
  stage: z.enum(['started', 'finished']).default('finished'),
  on: dayOrNull,
  measures: measures.exactOptional(),
});

const WEEKDAYS = ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'] as const;
const weekday = z.enum(WEEKDAYS).transform((name) => WEEKDAYS.indexOf(name) + 1);
/** Days on which nobody works: weekdays by their English names, and single days as the file at hand writes days. */
export const restDaysSchema = (singleDay: z.ZodType<Day, string>) =>
  z.strictObject({
    weekdays: z.array(weekday).max(6).default([]),
    days: z.array(singleDay).default([]),
  });

const months = (value: z.ZodNumber) => z.array(value).length(12, 'twelve numbers, January first');
const within = ({ least, most }: { readonly least: number; readonly most: number }) =>
  z.number().min(least).max(most);
export const climateSchema = z
  .strictObject({
    latitude: within(CLIMATE_BOUNDS.latitude).exactOptional(),
    meanTemperatureC: months(z.number().min(-20).max(45)).exactOptional(),
    minTemperatureC: months(within(CLIMATE_BOUNDS.temperatureC)).exactOptional(),
    maxTemperatureC: months(within(CLIMATE_BOUNDS.temperatureC)).exactOptional(),
    rainMm: months(z.number().min(0).max(3000)).exactOptional(),
    etoMmPerDay: months(z.number().min(0).max(20)).exactOptional(),
    source: z.string().trim().min(1),
  })
  .superRefine((climate, context) => {
    for (const { path, what } of climateMistakes(climate))
      context.addIssue({ code: 'custom', path, message: what });
  });

interface DailyTemperatures {
  readonly latitude?: number;
  readonly minTemperatureC?: readonly number[];
  readonly maxTemperatureC?: readonly number[];
}

/** The lowest and highest temperatures are of use only together and with the latitude; no lowest is over its highest. */
function climateMistakes({ latitude, minTemperatureC: least, maxTemperatureC: most }: DailyTemperatures) {
  if (!least && !most) return [];
  if (!least || !most || latitude === undefined) {
    const path = [least ? 'minTemperatureC' : 'maxTemperatureC'];
    return [{ path, what: 'latitude, minTemperatureC and maxTemperatureC are of use only together' }];
  }
  return least.flatMap((lowest, month) => {
    const highest = most[month] ?? lowest;
    if (lowest <= highest) return [];
    return [
      { path: ['minTemperatureC', month], what: `${lowest} is over the highest of that month, ${highest}` },
    ];
  });
}

const rain = z.strictObject({ on: day, mm: z.number().min(0).max(1000) });

/** Numbers of teams at work, per activity. */
export const teamsSchema = z.partialRecord(z.enum(ACTIVITIES), z.number().positive());

const turn = z.strictObject({ from: day, to: day });

const plotFile = z.strictObject({
  today: day,
  way: waySchema,
  areaHa: z.number().positive(),
  varietyDays: z.number().int().min(VARIETY_DAYS.least).max(VARIETY_DAYS.most),
  blockWater: spanSchema,
  target: spanSchema,
  teams: teamsSchema.exactOptional(),
  basalAdvised: z.boolean().exactOptional(),
  waterTurn: turn.exactOptional(),
  teamVisit: turn.extend({ activity: z.enum(ACTIVITIES) }).exactOptional(),
  waterFrom: day.exactOptional(),
  machineFrom: day.exactOptional(),
  floodedUntil: day.exactOptional(),
  cropLostOn: day.exactOptional(),
  nurseryGivenUpOn: day.exactOptional(),
  oldSeedlingsAccepted: z.boolean().exactOptional(),
  harvestOn: day.exactOptional(),
  restDays: restDaysSchema(day).exactOptional(),
  climate: climateSchema.exactOptional(),
  rainFrom: day.exactOptional(),
  rains: z.array(rain).exactOptional(),
  reports: z.array(report).default([]),
});

export type PlotFile =
  | { readonly ok: true; readonly today: Day; readonly season: Season }
  | { readonly ok: false; readonly mistakes: readonly string[] };

/** Reads a plot's JSON (already parsed); every mistake is listed with its place. */
export function readPlotFile(json: unknown): PlotFile {
  const read = plotFile.safeParse(json);
  if (!read.success) {
    return {
      ok: false,
      mistakes: read.error.issues.map(({ path, message }) => `${path.join('.') || 'file'}: ${message}`),
    };
  }
  const { today, ...season } = read.data;
  return { ok: true, today, season };
}

const iso = (on: Day | null): string | null => (on === null ? null : isoDay(on));

/** The plan in its printed form: days as YYYY-MM-DD, null for no bound. */
export function planJson(plan: PlotPlan) {
  return {
    steps: plan.steps.map(stepJson),
    breaches: plan.breaches.map(({ rule, byDays, cost }) => ({ rule, byDays, cost: cost.text })),
    lapses: plan.lapses.map(({ rule, side, byDays, byCm, cost }) => ({
      rule,
      side,
      ...(byDays !== undefined && { byDays }),
      ...(byCm !== undefined && { byCm }),
      cost: cost.text,
    })),
    conflicts: plan.conflicts.map(({ rules, shortDays }) => ({
      rules,
      shortDays,
      cost: conflictCost(rules).text,
    })),
    ...(plan.unevenness && { unevenness: unevenJson(plan.unevenness) }),
    ...(plan.water && { water: waterJson(plan.water) }),
    ...(plan.fallowUntil !== null && { fallowUntil: isoDay(plan.fallowUntil) }),
    ...(plan.lacksHarvestDate && { lacks: ['harvestOn'] }),
    remedies: plan.remedies.map(({ kind, on, cost, plantOn, ...more }) => ({
      kind,
      on: isoDay(on),
      ...more,
      cost: cost.text,
      plantOn: iso(plantOn),
    })),
  };
}

function unevenJson({ plantOn, again, ...rest }: Unevenness) {
  const relevel = again && { on: isoDay(again.on), plantOn: isoDay(again.plantOn) };
  return { ...rest, plantOn: isoDay(plantOn), again: relevel };
}

/** "120 of 200 mm", and whether the day is expected from the usual rain. */
const waitJson = ({ sumMm, needMm, state, falseStart }: RainWait) => ({ sumMm, needMm, state, falseStart });

const waterJson = ({ heardOn, ...rest }: StandingWater) => ({ ...rest, heardOn: iso(heardOn) });

function stepJson(step: PlanStep) {
  const name = {
    activity: step.activity,
    ...(step.round !== null && { round: step.round }),
    status: step.status,
  };
  if (step.status === 'done') return { ...name, on: iso(step.on) };
  return {
    ...name,
    ...(step.status === 'started' && { on: iso(step.on) }),
    earliest: iso(step.earliest),
    due: iso(step.due),
    latest: iso(step.latest),
    ...(step.doneBy !== null && { doneBy: iso(step.doneBy) }),
    ...(step.waitsFor && { waitsFor: waitJson(step.waitsFor) }),
    because: bindingRules(step),
  };
}

/** The rules that set the two bounds, without pins, work times and today: what WHY can explain. */
export function bindingRules(step: PlanStep): readonly string[] {
  const rules = [...step.earliestBecause, ...step.latestBecause];
  return [...new Set(rules.map((rule) => rule.replace(/^order:/, '')))].filter(
    (rule) => rule !== 'today' && !rule.includes(':'),
  );
}
