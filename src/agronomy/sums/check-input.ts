/** Input that several sums refuse in the same words: no number, no area, an area that is no plot's. */
import { figure, type Rulebook } from '../rulebook.ts';
import { VARIETY_DAYS } from '../season.ts';
import { type Refusal, refusal } from './sum.ts';

/** The first of these numbers that is none (NaN or without end), refused as "not-a-number"; null when all are numbers. */
export function notANumber(...numbers: readonly (number | undefined)[]): Refusal | null {
  const wrong = numbers.find((one) => one !== undefined && !Number.isFinite(one));
  return wrong === undefined ? null : refusal('not-a-number', wrong);
}

/** An area of 0 ha or less ("area-zero"), or one over the figure `sum.area.max` ("area-over"); null when it can be a plot's. */
export function areaRefusal(book: Rulebook, areaHa: number): Refusal | null {
  if (!Number.isFinite(areaHa)) return refusal('not-a-number', areaHa);
  if (areaHa <= 0) return refusal('area-zero', areaHa);
  return areaHa > figure(book, 'sum.area.max') ? refusal('area-over', areaHa) : null;
}

/** Days that no variety of rice takes from sowing to harvest, or parts of days ("variety-days"); null for those that one can. */
export function varietyRefusal(varietyDays: number): Refusal | null {
  const { least, most } = VARIETY_DAYS;
  const can = Number.isInteger(varietyDays) && varietyDays >= least && varietyDays <= most;
  return can ? null : refusal('variety-days', varietyDays);
}

/** A count below 0, or of parts ("not-whole"); null for 0, 1, 2, ... */
export function notWhole(count: number): Refusal | null {
  return Number.isInteger(count) && count >= 0 ? null : refusal('not-whole', count);
}
