/** Random seasons of every way of growing: any reports in any order, any lack, rain, canal, target and calendar. */
import fc from 'fast-check';
import {
  ACTIVITIES,
  type Climate,
  type Rain,
  type Report,
  type RestDays,
  type Season,
  type Span,
  WAY_VALUES,
  type Way,
} from '../../../src/agronomy/season.ts';
import type { Day } from '../../../src/plan/day.ts';
import { day } from '../../support/seasons.ts';

/** The day on which every random season is planned. */
export const TODAY: Day = day('2027-03-10');

const ago = (days: number) => fc.integer({ min: 0, max: days }).map((back) => TODAY - back);
const ahead = (days: number) => fc.integer({ min: 1, max: days }).map((on) => TODAY + on);
const sometimes = <T>(value: fc.Arbitrary<T>, freq = 3) =>
  fc.oneof({ weight: freq, arbitrary: fc.constant(undefined) }, { weight: 1, arbitrary: value });

export const ways: fc.Arbitrary<Way> = fc.record({
  tillage: fc.constantFrom(...WAY_VALUES.tillage),
  establishment: fc.constantFrom(...WAY_VALUES.establishment),
  nursery: fc.constantFrom(...WAY_VALUES.nursery),
  ripens: fc.constantFrom(...WAY_VALUES.ripens),
  water: fc.constantFrom(...WAY_VALUES.water),
});

const measures = fc.oneof(
  { weight: 5, arbitrary: fc.constant({}) },
  { weight: 1, arbitrary: fc.constantFrom({ depthCm: 6 }, { depthCm: 12 }, { depthCm: 30 }) },
  { weight: 1, arbitrary: fc.double({ min: 0.05, max: 0.95, noNaN: true }).map((share) => ({ share })) },
  {
    weight: 2,
    arbitrary: fc
      .array(fc.integer({ min: 0, max: 40 }), { minLength: 2, maxLength: 9 })
      .map((spotsCm) => ({ spotsCm })),
  },
);

/** Any report: of any work, on any of the last ninety days or on none, now and then with a figure. */
export const reports: fc.Arbitrary<Report> = fc
  .record({
    activity: fc.constantFrom(...ACTIVITIES),
    stage: fc.constantFrom('started' as const, 'finished' as const, 'finished' as const),
    on: fc.option(ago(90), { freq: 9 }),
    measures,
  })
  .map(({ measures: texted, ...rest }) =>
    Object.keys(texted).length ? { ...rest, measures: texted } : rest,
  );

/** Work reported as it usually goes: in the order of the field, up to some step, a few days apart. */
const orderlyReports: fc.Arbitrary<readonly Report[]> = fc
  .record({
    last: fc.integer({ min: 0, max: ACTIVITIES.length }),
    apart: fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 18, maxLength: 18 }),
    told: fc.array(fc.boolean(), { minLength: 18, maxLength: 18 }),
    spots: sometimes(fc.array(fc.integer({ min: 0, max: 40 }), { minLength: 5, maxLength: 5 })),
    waits: fc.integer({ min: 0, max: 12 }),
  })
  .map(({ last, apart, told, spots, waits }) => {
    let on = TODAY - waits;
    const back: Report[] = [];
    for (let index = last - 1; index >= 0; index--) {
      const activity = ACTIVITIES[index] as Report['activity'];
      if (told[index]) {
        const level = activity === 'level' && spots ? { measures: { spotsCm: spots } } : {};
        back.push({ activity, stage: 'finished', on, ...level });
      }
      on -= apart[index] ?? 0;
    }
    return back.reverse();
  });

const span: fc.Arbitrary<Span> = fc
  .tuple(fc.option(fc.integer({ min: -40, max: 60 })), fc.option(fc.integer({ min: 0, max: 60 })))
  .map(([from, length]) => ({
    from: from === null ? null : TODAY + from,
    to: length === null ? null : TODAY + (from ?? 0) + length,
  }));
const anySpan = fc.oneof(
  { weight: 2, arbitrary: fc.constant({ from: null, to: null }) },
  { weight: 1, arbitrary: span },
);

export const rains: fc.Arbitrary<readonly Rain[]> = fc.array(
  fc.record({ on: ago(60), mm: fc.integer({ min: 0, max: 90 }) }),
  { maxLength: 12 },
);

export const restDays: fc.Arbitrary<RestDays> = fc.record({
  weekdays: fc.uniqueArray(fc.integer({ min: 1, max: 7 }), { maxLength: 2 }),
  days: fc.array(fc.integer({ min: TODAY - 20, max: TODAY + 90 }), { maxLength: 8 }),
});

const monthly = (min: number, max: number) =>
  fc.array(fc.integer({ min, max }), { minLength: 12, maxLength: 12 });
const climates: fc.Arbitrary<Climate> = fc
  .record({ warmth: sometimes(monthly(12, 32), 1), rain: sometimes(monthly(0, 400), 1) })
  .map(({ warmth, rain }) => ({
    source: 'invented',
    ...(warmth && { meanTemperatureC: warmth }),
    ...(rain && { rainMm: rain }),
  }));

const teams = fc.record({
  plough: fc.integer({ min: 1, max: 6 }),
  puddle: fc.integer({ min: 1, max: 6 }),
  transplant: fc.integer({ min: 1, max: 20 }),
});

/** Leaves out what is undefined, so that a field is there or is not. */
function present<T extends object>(fields: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as ReturnType<
    typeof present<T>
  >;
}

const extras = fc
  .record({
    teams: sometimes(teams),
    restDays: sometimes(restDays),
    climate: sometimes(climates),
    rainFrom: sometimes(ago(50)),
    rains: sometimes(rains, 1),
    harvestOn: sometimes(fc.integer({ min: TODAY - 10, max: TODAY + 160 }), 1),
    waterFrom: sometimes(ahead(40)),
    machineFrom: sometimes(ahead(40)),
    floodedUntil: sometimes(ahead(20), 5),
    cropLostOn: sometimes(ago(60), 6),
    nurseryGivenUpOn: sometimes(ago(60), 6),
    oldSeedlingsAccepted: sometimes(fc.constant(true), 6),
  })
  .map(present);

/** Seasons of every way. */
export const seasons: fc.Arbitrary<Season> = fc
  .record({
    way: ways,
    areaHa: fc.constantFrom(0.02, 0.1, 0.4, 1, 2.5),
    varietyDays: fc.constantFrom(90, 110, 120, 135, 160),
    blockWater: anySpan,
    target: anySpan,
    basalAdvised: fc.boolean(),
    reports: fc.oneof(fc.array(reports, { maxLength: 7 }), orderlyReports),
    extras,
  })
  .map(({ extras: more, ...season }) => ({ ...season, ...more }) as Season);
