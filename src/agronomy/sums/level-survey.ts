/** What depths of water at spots spread over a flooded plot tell: how level it is, where to cut and fill, how much to move. */
import { spreadCm, standingClearAge } from '../crop-days.ts';
import { figure, type Rulebook } from '../rulebook.ts';
import { areaRefusal, notANumber } from './check-input.ts';
import { type Founded, founded, type Refusal, refusal } from './sum.ts';

/** Depths in cm, in any order, a shallow one being high ground; ground that stands out of the water is given as 0. */
export interface LevelInput {
  readonly depthsCm: readonly number[];
  readonly areaHa: number;
}

/** A spot, counted from 1 in the order given, and how much is to be taken off or put on it. */
export interface Spot {
  readonly spot: number;
  readonly cm: number;
}

export interface LevelSurvey extends LevelInput, Founded {
  readonly meanCm: number;
  /** The deepest less the shallowest. */
  readonly rangeCm: number;
  readonly isLevel: boolean;
  /** Spots that stand higher, and lower, than the mean by more than the tolerance. */
  readonly cut: readonly Spot[];
  readonly fill: readonly Spot[];
  /** Soil from all that is above the mean into all that is below it, each spot standing for an equal share of the plot. */
  readonly moveM3: number;
  /** Wheelbarrow loads that this makes, rounded up. */
  readonly barrows: number;
  /** Spots given as 0: where they are mounds, the range and the soil to move are more than told. */
  readonly moundSpots: readonly number[];
  /** On a plot that is not level: the age in days at which seedlings stand clear of the water on its lowest spot. */
  readonly clearAgeDays: number | null;
}

const M2_PER_HA = 10_000;
const CM_PER_M = 100;
const LITRES_PER_M3 = 1000;
/** Guards against 0.1 + 0.2 making a spot uneven, or one barrow more. */
const ROUNDING = 1e-9;

/**
 * Surveys a plot. Refuses fewer spots than `sum.spots.least` ("spots-few"), a depth below 0 ("depth-below-zero") or above
 * `sum.spot-depth.max` ("depth-over"), an area that is none ("area-zero", "area-over"), and what is not a number.
 * Depths 4 6 9 12 5 on 0.4 ha: 7.2 cm on average, 8 cm between highest and lowest, 52.8 m3 to move.
 */
export function levelSurvey({ depthsCm, areaHa }: LevelInput, book: Rulebook): LevelSurvey | Refusal {
  const refused = areaRefusal(book, areaHa) ?? depthsRefusal(depthsCm, book);
  if (refused) return refused;
  const meanCm = depthsCm.reduce((sum, depth) => sum + depth, 0) / depthsCm.length;
  const tolerance = figure(book, 'level.tolerance') + ROUNDING;
  const off = depthsCm.map((depth, index) => ({ spot: index + 1, cm: meanCm - depth }));
  const rangeCm = spreadCm(depthsCm);
  const clearAgeDays = standingClearAge(book, rangeCm);
  const moveM3 = off.reduce((sum, { cm }) => sum + Math.max(0, cm), 0) * m3PerCm(areaHa, depthsCm.length);
  const used = ['level-range.max', 'level.tolerance', 'level.barrow'];
  const figures = clearAgeDays === null ? used : [...used, 'seedling-growth'];
  return {
    depthsCm,
    areaHa,
    meanCm,
    rangeCm,
    isLevel: clearAgeDays === null,
    cut: off.filter(({ cm }) => cm > tolerance),
    fill: off.filter(({ cm }) => cm < -tolerance).map(({ spot, cm }) => ({ spot, cm: -cm })),
    moveM3,
    barrows: Math.max(0, Math.ceil((moveM3 * LITRES_PER_M3) / figure(book, 'level.barrow') - ROUNDING)),
    moundSpots: off.filter((_, index) => depthsCm[index] === 0).map(({ spot }) => spot),
    clearAgeDays,
    ...founded(book, figures),
  };
}

/** Soil in a layer of 1 cm over the share of the plot that one spot stands for. */
const m3PerCm = (areaHa: number, spots: number) => (areaHa * M2_PER_HA) / spots / CM_PER_M;

function depthsRefusal(depthsCm: readonly number[], book: Rulebook): Refusal | null {
  const wrong = notANumber(...depthsCm);
  if (wrong) return wrong;
  const below = depthsCm.find((depth) => depth < 0);
  if (below !== undefined) return refusal('depth-below-zero', below);
  const most = figure(book, 'sum.spot-depth.max');
  const over = depthsCm.find((depth) => depth > most);
  if (over !== undefined) return refusal('depth-over', over);
  return depthsCm.length < figure(book, 'sum.spots.least') ? refusal('spots-few', depthsCm.length) : null;
}
