/** "Seed plot 3": how much seed, on how large a bed, and the days to soak and to sow it. */
import { stepFor } from '../agronomy/plot-plan.ts';
import { type SeedNeed, seedNeed } from '../agronomy/sums/seed-need.ts';
import { isRefusal } from '../agronomy/sums/sum.ts';
import type { SumReading } from '../hear/reading.ts';
import { type Planned, planned } from './planned.ts';
import { sumRefused } from './sum-refused.ts';
import { sumHead, tidy } from './sum-words.ts';
import type { Part, Sentence } from './turn.ts';
import type { PlotWorld, World } from './world.ts';

/** Seed for the plot, or for the area in the text on this plot's way of growing. */
export function answerSeed(world: World, reading: SumReading, plot: PlotWorld): Part {
  return seedOf(world, reading, plot, reading.percent);
}

/** The same, with the germination of the seed at hand in %. */
export function seedOf(world: World, reading: SumReading, plot: PlotWorld, percent?: number): Part {
  const { areaHa } = reading;
  const known = planned(world, plot);
  const { way, varietyDays } = known.season;
  const need = seedNeed(
    {
      areaHa: areaHa ?? plot.season.areaHa,
      nursery: way.nursery,
      establishment: way.establishment,
      varietyDays,
      ...(percent !== undefined && { germinationPercent: percent }),
      ...(areaHa === undefined && ageOf(known)),
    },
    world.rulebook,
  );
  return isRefusal(need) ? sumRefused(need) : { say: toldOf(world, reading, known, need) };
}

function toldOf(world: World, reading: SumReading, known: Planned, need: SeedNeed): Sentence[] {
  const { seedKg, germinationPercent, nursery, otherSeed } = need;
  const head = sumHead(world, 'sum.seed', reading, known.plot, {
    kg: tidy(seedKg),
    percent: germinationPercent,
  });
  const bed = nursery ? [{ key: 'sum.seed-bed', values: { m2: Math.round(nursery.bedM2) } }] : [];
  const hills = nursery
    ? [
        {
          key: 'sum.seed-hills',
          values: { hills: Math.round(nursery.hillsPerM2), seedlings: nursery.seedlingsAHill },
          spare: true,
        },
      ]
    : [];
  const other = otherSeed ? [{ key: 'sum.other-seed' }] : [];
  return [...other, head, ...bed, ...(reading.areaHa === undefined ? daysOf(known) : []), ...hills];
}

/** How old the seedlings of a nursery that is sown will be at planting. */
function ageOf({ plan }: Planned): { readonly ageDays?: number } {
  const [sown, planting] = [stepFor(plan, 'sow-nursery')?.on ?? null, stepFor(plan, 'transplant')];
  const plantOn = planting?.on ?? planting?.due ?? null;
  return sown === null || plantOn === null || plantOn <= sown ? {} : { ageDays: plantOn - sown };
}

/** The days to soak and to sow, as far as they are to come. */
function daysOf({ plan }: Planned): Sentence[] {
  const soak = stepFor(plan, 'pregerminate');
  const sow = stepFor(plan, 'sow-nursery') ?? stepFor(plan, 'sow-direct');
  if (!sow || sow.status === 'done' || sow.due === null) return [];
  if (soak && soak.status !== 'done' && soak.due !== null)
    return [{ key: 'sum.seed-days', values: { soak: { day: soak.due }, sow: { day: sow.due } } }];
  return [{ key: 'sum.seed-sow', values: { sow: { day: sow.due } } }];
}
