/** How much seed a plot needs, on how large a bed, and how its seedlings are set: hills, and seedlings a hill. */
import type { Day } from '../../plan/day.ts';
import { bestAge } from '../crop-days.ts';
import { figure, type Rulebook } from '../rulebook.ts';
import type { Way } from '../season.ts';
import { extraSeedlings } from '../variety.ts';
import { areaRefusal, notANumber, notWhole, varietyRefusal } from './check-input.ts';
import { isPoorSeed } from './germination.ts';
import { type Founded, founded, type Refusal, refusal } from './sum.ts';

export interface SeedInput extends Pick<Way, 'nursery' | 'establishment'> {
  readonly areaHa: number;
  /** Of a hundred seeds, how many sprout; that for which the rates are quoted where it is not known. */
  readonly germinationPercent?: number;
  /** Days from sowing to harvest; the usual variety's where they are not known. */
  readonly varietyDays?: number;
  /** How old the seedlings will be at planting; their best age where it is not known. */
  readonly ageDays?: number;
  /** The day of planting, or of sowing in the field: tells when the seed is sown. */
  readonly plantOn?: Day;
  readonly rowCm?: number;
  readonly plantCm?: number;
}

export interface SeedNeed extends Founded {
  readonly areaHa: number;
  readonly germinationPercent: number;
  /** Enough in any case: by the upper end of the rate. A nursery that turns out too small cannot be made larger later. */
  readonly seedKg: number;
  /** By the lower end of the rate; the same where the source has one rate. */
  readonly seedLeastKg: number;
  readonly otherSeed: boolean;
  /** Null for seed that is sown in the field. */
  readonly nursery: Nursery | null;
  /** When the seed is sown; null when no day of planting is given. */
  readonly sowOn: Day | null;
}

export interface Nursery {
  readonly bedM2: number;
  readonly hillsPerM2: number;
  readonly ageDays: number;
  readonly bestAgeDays: number;
  readonly seedlingsAHill: number;
  /** How many of these make up for their age. */
  readonly extraSeedlings: number;
  /** So old that they are lost: a fresh nursery is to be sown. */
  readonly tooOld: boolean;
}

/**
 * Seed for a plot: rate x area x the germination of the rate / that of the seed. 0.4 ha from a wet bed at 80 % needs 16 kg.
 * Refuses an area that is none, a germination of 0 or less ("germination-zero") or over 100 % ("germination-over"), an age
 * of 0 days ("age-zero") or more than any nursery is kept ("age-over"), a variety that is none of rice ("variety-days"),
 * spacings of 0 ("spacing-zero"), and what is not a number.
 */
export function seedNeed(input: SeedInput, book: Rulebook): SeedNeed | Refusal {
  const refused = areaRefusal(book, input.areaHa) ?? seedRefusal(input, book);
  if (refused) return refused;
  const kind = input.establishment === 'wet-seed' ? 'wet-seed' : input.nursery;
  const [least, most] = [`seed.rate.${kind}.min`, `seed.rate.${kind}.max`] as const;
  const quoted = figure(book, 'seed.rate-germination');
  const germinationPercent = input.germinationPercent ?? quoted;
  const times = (input.areaHa * quoted) / germinationPercent;
  const nursery = input.establishment === 'wet-seed' ? null : nurseryOf(input, book);
  const figures = [least, most, 'seed.rate-germination', 'germination.least', ...nurseryFigures(input)];
  return {
    areaHa: input.areaHa,
    germinationPercent,
    seedKg: figure(book, most) * times,
    seedLeastKg: figure(book, least) * times,
    otherSeed: isPoorSeed(book, germinationPercent),
    nursery,
    sowOn: input.plantOn === undefined ? null : input.plantOn - (nursery?.ageDays ?? 0),
    ...founded(book, figures),
  };
}

function nurseryOf(input: SeedInput, book: Rulebook): Nursery {
  const varietyDays = input.varietyDays ?? figure(book, 'variety.usual');
  const bestAgeDays = bestAge(book, varietyDays, input.nursery);
  const ageDays = input.ageDays ?? bestAgeDays;
  const rowCm = input.rowCm ?? figure(book, 'spacing.row');
  const plantCm = input.plantCm ?? figure(book, 'spacing.plant');
  const extra = extraSeedlings(book, ageDays, bestAgeDays);
  return {
    bedM2: input.areaHa * figure(book, `nursery.${input.nursery}`),
    hillsPerM2: CM2_PER_M2 / (rowCm * plantCm),
    ageDays,
    bestAgeDays,
    seedlingsAHill: figure(book, 'seedlings.hill') + extra,
    extraSeedlings: extra,
    tooOld: ageDays > figure(book, 'seedling-limit'),
  };
}

const CM2_PER_M2 = 10_000;

/** Keys of the figures that the nursery's sums take, those left out that are given. */
function nurseryFigures(input: SeedInput): readonly string[] {
  if (input.establishment === 'wet-seed') return [];
  return [
    `nursery.${input.nursery}`,
    'seedlings.hill',
    ...(input.rowCm === undefined ? ['spacing.row'] : []),
    ...(input.plantCm === undefined ? ['spacing.plant'] : []),
    ...(input.varietyDays === undefined ? ['variety.usual'] : []),
    ...(input.ageDays === undefined ? [] : ['old-seedlings.extra-per-week', 'seedling-limit']),
  ];
}

function seedRefusal(input: SeedInput, book: Rulebook): Refusal | null {
  const { germinationPercent: percent, ageDays, varietyDays, rowCm, plantCm } = input;
  const wrong = notANumber(percent, ageDays, varietyDays, rowCm, plantCm);
  if (wrong) return wrong;
  if (percent !== undefined && percent <= 0) return refusal('germination-zero', percent);
  if (percent !== undefined && percent > 100) return refusal('germination-over', percent);
  if (ageDays !== undefined && ageDays <= 0) return refusal('age-zero', ageDays);
  if (ageDays !== undefined && ageDays > figure(book, 'seedling-age.longest'))
    return refusal('age-over', ageDays);
  const parts = ageDays === undefined ? null : notWhole(ageDays);
  const variety = varietyDays === undefined ? null : varietyRefusal(varietyDays);
  if (parts ?? variety) return parts ?? variety;
  const narrow = [rowCm, plantCm].find((cm) => cm !== undefined && cm <= 0);
  return narrow === undefined ? null : refusal('spacing-zero', narrow);
}
