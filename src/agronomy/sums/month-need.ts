/** Water that a flooded crop needs from the canal in a month of usual weather. */
import { figure, type Rulebook } from '../rulebook.ts';
import { CLIMATE_BOUNDS, type Climate } from '../season.ts';
import { areaRefusal, notANumber } from './check-input.ts';
import { EFFECTIVE_RAIN_FIGURES, type EtoBy, effectiveRainMm, FAO_56_SUN, monthEto } from './climate.ts';
import { givenOr } from './given-or.ts';
import { lossRefusal } from './plot-water.ts';
import { type Founded, founded, type Refusal, refusal } from './sum.ts';
import { daysInMonth } from './sunshine.ts';
import { M3_IN_MM_HA } from './units.ts';

/** How far the crop is: before it covers the water, while it does, and while the grain ripens. */
export const CROP_STAGES = ['young', 'full', 'ripening'] as const;
export type CropStage = (typeof CROP_STAGES)[number];

export type UsualWeather = Omit<Climate, 'source'> & Partial<Climate>;

export interface MonthNeedTerms {
  /** January is 1. */
  readonly month: number;
  readonly areaHa: number;
  /** With a source where it is a place's own. */
  readonly climate: UsualWeather;
  /** The stage of the greatest need when not given. */
  readonly stage?: CropStage;
  readonly percolationMmPerDay?: number;
}

export interface MonthNeed extends Founded {
  readonly month: number;
  readonly areaHa: number;
  readonly days: number;
  readonly etoMmPerDay: number;
  readonly etoBy: EtoBy;
  readonly cropFactor: number;
  readonly cropMm: number;
  readonly percolationMm: number;
  readonly rainMm: number;
  readonly effectiveRainMm: number;
  /** Crop and percolation less the rain that they can use, never below 0. */
  readonly needMm: number;
  readonly needM3: number;
}

/**
 * The month's need; more rain never asks for more water. July at 5 mm a day of reference evaporation takes 1.2 x 5 x 31 =
 * 186 mm and 124 mm of percolation; of 120 mm of rain 71 count, and 239 mm are needed. Refuses a month that is none
 * ("month-range"), weather that cannot be ("evaporation-range", "rain-range", "temperatures-turned", "temperature-range",
 * "latitude-range"), a climate without rain ("rain-missing"), and percolation and areas as the other sums.
 */
export function monthNeed(terms: MonthNeedTerms, book: Rulebook): MonthNeed | Refusal {
  const refused = refusalOf(terms, book);
  if (refused) return refused;
  const { month, areaHa, climate, stage = 'full' } = terms;
  const days = daysInMonth(month);
  const eto = monthEto(book, climate, month);
  const factor = `crop-factor.${stage}`;
  const percolation = givenOr(book, terms.percolationMmPerDay, 'percolation');
  const rainMm = climate.rainMm?.[month - 1] ?? 0;
  const usedMm = effectiveRainMm(book, rainMm);
  const cropMm = figure(book, factor) * eto.value * days;
  const percolationMm = percolation.value * days;
  const needMm = Math.max(0, cropMm + percolationMm - usedMm);
  const figures = [factor, ...eto.figures, ...percolation.figures, ...EFFECTIVE_RAIN_FIGURES];
  return {
    month,
    areaHa,
    days,
    etoMmPerDay: eto.value,
    etoBy: eto.by,
    cropFactor: figure(book, factor),
    cropMm,
    percolationMm,
    rainMm,
    effectiveRainMm: usedMm,
    needMm,
    needM3: needMm * areaHa * M3_IN_MM_HA,
    ...founded(
      book,
      figures,
      ...(climate.source === undefined ? [] : [{ text: climate.source, mark: 'scheme' as const }]),
      ...(eto.by === 'hargreaves' ? [FAO_56_SUN] : []),
    ),
  };
}

function refusalOf({ month, areaHa, climate, ...terms }: MonthNeedTerms, book: Rulebook): Refusal | null {
  const at = month - 1;
  if (!Number.isInteger(month) || month < 1 || month > 12) return refusal('month-range', month);
  const [eto, rain] = [climate.etoMmPerDay?.[at], climate.rainMm?.[at]];
  return (
    areaRefusal(book, areaHa) ??
    lossRefusal(book, eto, terms.percolationMmPerDay) ??
    rainRefusal(book, rain) ??
    (eto === undefined ? sunRefusal(climate, at) : null)
  );
}

function rainRefusal(book: Rulebook, rainMm: number | undefined): Refusal | null {
  if (rainMm === undefined) return refusal('rain-missing', 'rain');
  const can = rainMm >= 0 && rainMm <= figure(book, 'sum.month-rain.max');
  return notANumber(rainMm) ?? (can ? null : refusal('rain-range', rainMm));
}

function sunRefusal(
  { latitude, minTemperatureC, maxTemperatureC }: UsualWeather,
  at: number,
): Refusal | null {
  const [least, most] = [minTemperatureC?.[at], maxTemperatureC?.[at]];
  const none = notANumber(latitude, least, most);
  if (none) return none;
  const { latitude: latitudes, temperatureC } = CLIMATE_BOUNDS;
  const wrong = [least, most].find((one) => one !== undefined && isOutside(one, temperatureC));
  if (wrong !== undefined) return refusal('temperature-range', wrong);
  if (least !== undefined && most !== undefined && least > most)
    return refusal('temperatures-turned', `${least} and ${most}`);
  const wrongLatitude = latitude !== undefined && isOutside(latitude, latitudes);
  return wrongLatitude ? refusal('latitude-range', latitude) : null;
}

const isOutside = (one: number, { least, most }: { readonly least: number; readonly most: number }) =>
  one < least || one > most;
