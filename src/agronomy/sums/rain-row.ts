/** Rain of some days in a row: its running sum, what a crop can use of it, and what stands behind the bunds. */
import { bundBalance } from '../bund-balance.ts';
import { rainSum } from '../rain.ts';
import { figure, type Rulebook } from '../rulebook.ts';
import type { Rain } from '../season.ts';
import { notANumber } from './check-input.ts';
import { EFFECTIVE_RAIN_FIGURES, effectiveRainMm } from './climate.ts';
import { givenOr, openWater } from './given-or.ts';
import { lossRefusal } from './plot-water.ts';
import { type Founded, founded, type Refusal, refusal } from './sum.ts';

export interface RainRowTerms {
  /** mm of each day, in the order of the days. */
  readonly rainsMm: readonly number[];
  readonly etoMmPerDay?: number;
  readonly percolationMmPerDay?: number;
  /** What stands on the soaked plot before the first day; 0 when not given. */
  readonly startMm?: number;
}

export interface RainRow extends Founded {
  readonly rainsMm: readonly number[];
  readonly sumMm: number;
  readonly runningMm: readonly number[];
  /** Of the sum as one month's rain, what a crop can use. */
  readonly effectiveMm: number;
  /** On which of the days, from 1, the sum came to what puddling waits for; null when it did not. */
  readonly puddleOnDay: number | null;
  readonly lossMmPerDay: number;
  /** Depth on a soaked plot at the end of each day. */
  readonly standingMm: readonly number[];
  readonly overflowMm: number;
  readonly lostMm: number;
}

/**
 * The sums of the row. Refuses no rain at all ("numbers-missing"), rain under 0 or more than a day ever has ("rain-range"),
 * water that stands under 0 or over the bunds ("standing-range"), and losses as the other sums.
 */
export function rainRow(terms: RainRowTerms, book: Rulebook): RainRow | Refusal {
  const refused = refusalOf(terms, book);
  if (refused) return refused;
  const { rainsMm, startMm = 0 } = terms;
  const evaporation = openWater(book, terms.etoMmPerDay);
  const percolation = givenOr(book, terms.percolationMmPerDay, 'percolation');
  const rains = rainsMm.map((mm, index): Rain => ({ on: index + 1, mm }));
  const { sumMm, reachedOn } = rainSum(rains, figure(book, 'rainfall.puddle'));
  const { depthsMm, ...balance } = bundBalance(rains, {
    from: 1,
    to: rains.length,
    startMm,
    evaporationMm: () => evaporation.value,
    percolationMm: percolation.value,
    bundMm: figure(book, 'bund-height'),
  });
  const figures = [...evaporation.figures, ...percolation.figures, 'bund-height', 'rainfall.puddle'];
  return {
    rainsMm,
    sumMm,
    runningMm: rains.map(({ on }) => rainSum(rains.slice(0, on), 0).sumMm),
    effectiveMm: effectiveRainMm(book, sumMm),
    puddleOnDay: reachedOn,
    lossMmPerDay: evaporation.value + percolation.value,
    standingMm: depthsMm,
    ...balance,
    ...founded(book, [...figures, ...EFFECTIVE_RAIN_FIGURES]),
  };
}

function refusalOf(terms: RainRowTerms, book: Rulebook): Refusal | null {
  const { rainsMm, etoMmPerDay, percolationMmPerDay, startMm = 0 } = terms;
  if (rainsMm.length === 0) return refusal('numbers-missing', 'none given');
  const refused = notANumber(...rainsMm, startMm) ?? lossRefusal(book, etoMmPerDay, percolationMmPerDay);
  if (refused) return refused;
  const wrong = rainsMm.find((mm) => mm < 0 || mm > figure(book, 'rainfall.most'));
  if (wrong !== undefined) return refusal('rain-range', wrong);
  const holds = startMm >= 0 && startMm <= figure(book, 'bund-height');
  return holds ? null : refusal('standing-range', startMm);
}
