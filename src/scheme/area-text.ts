/** Areas as people write them in a table: a figure in one column, its unit in another. */
import { type AreaUnit, haIn } from './area-unit.ts';

const M2_IN_HA = 10_000;
/** 4840 square yards of 0.9144 m. */
const M2_IN_ACRE = 4046.856_422_4;
/** No plot is larger, in a scheme's file either. */
const MOST_HA = 100;

const UNITS: Readonly<Record<string, number>> = {
  ha: 1,
  hectare: 1,
  hectares: 1,
  m2: 1 / M2_IN_HA,
  'm²': 1 / M2_IN_HA,
  sqm: 1 / M2_IN_HA,
  acre: M2_IN_ACRE / M2_IN_HA,
  acres: M2_IN_ACRE / M2_IN_HA,
};

/** Hectares in one of the unit, hectares when it is empty; null when it is none that is known. */
export function unitHa(text: string, own: AreaUnit | undefined): number | null {
  const word = text.toLowerCase();
  if (word === '') return 1;
  if (own?.words.some((name) => name.toLowerCase() === word)) return haIn(own);
  return Object.hasOwn(UNITS, word) ? (UNITS[word] ?? null) : null;
}

/**
 * An area in hectares, to the square metre, with a point or a comma for the decimals; else why it is none. "1,200" is asked
 * about where both 1.2 and 1200 of the unit can be a plot. `areaHa('0,4', 1)` is 0.4.
 */
export function areaHa(text: string, haInUnit: number): number | string {
  const figure = figureOf(text);
  if (typeof figure === 'string') return figure;
  const ha = kept(figure * haInUnit);
  if (ha <= 0) return 'is no area: it must be more than 0';
  if (ha > MOST_HA) return `is more than ${MOST_HA} ha`;
  const asThousands = Number(text.replace(/[.,]/, '')) * haInUnit;
  if (/^[1-9]\d{0,2}[.,]\d{3}$/.test(text) && asThousands <= MOST_HA)
    return 'can be read in two ways: write thousands without a sign between';
  return ha;
}

/** The figure of an area in whatever unit; else why it is none. */
export function figureOf(text: string): number | string {
  if (text === '') return 'the area is missing';
  return /^\d+([.,]\d+)?$/.test(text) ? Number(text.replace(',', '.')) : 'is not a number';
}

const kept = (ha: number) => Math.round(ha * M2_IN_HA) / M2_IN_HA;
