/** The sources that the rulebook quotes, written once. Marks say how each was seen. */
import type { Mark, Source } from '../rulebook.ts';

const source =
  (mark: Mark) =>
  (text: string): Source => ({ text, mark });

export const published = source('published');
export const fromMemory = source('from-memory');
export const judgement = source('judgement');

export const COMMON = source('common-practice')('common practice');
export const IRRI_WET = published('IRRI, wet preparation: 3-7 days by hardness');
export const IRRI_PHASES = published('IRRI, three growth phases');
export const PHILRICE_2007 = published('PhilRice Field Operations Manual 2007');
export const PALAYCHECK = published('PhilRice, PalayCheck');
export const PHILRICE_SEED = published('PhilRice/PinoyRice, how to prepare seed: 24 h + 24 h');
export const PHILRICE_TRANSPLANT = published('PhilRice/PinoyRice, how to transplant');
export const SRI_LANKA_PRIMARY = published(
  'Dept of Agriculture Sri Lanka, primary tillage: second tillage at least 14 days after the first',
);
export const SRI_LANKA_TERTIARY = published('Dept of Agriculture Sri Lanka, tertiary tillage: 1 day');
export const SRI_LANKA_SEED = published('Dept of Agriculture Sri Lanka, wet-bed nursery: 24 h + 48 h');
export const KANPUR = published('IIT Kanpur agropedia');
export const IIRR = published('IIRR, Low-external Input Rice Production, wet-bed nursery: 16/20/25 days');
export const YOSHIDA = published('Yoshida 1981, Fundamentals of Rice Crop Science, p. 1-2');
export const YOSHIDA_SHOCK = published('Yoshida 1981, Table 1.6 p. 18');
export const YOSHIDA_LEAVES = published('Yoshida 1981, p. 21: 100 degree-days a leaf');
export const MORRIS_ZANDSTRA: Source = {
  text: 'Morris & Zandstra 1979, quoted by MMSU Agromet: 200 mm after the local start date',
  mark: 'second-hand',
};
export const MARTEAU = published(
  'Marteau 2009: no dry spell of 7 days or more in the 30 days after a rain of 1-2 days',
);
export const BUNDS = published('UNEP-IETC 1998 sec. 3.4: bunds of 30-45 cm');
export const RICKMAN = published('Rickman & Ferrer, IRRI Rice Today, Humans and machines');
export const SOAKING: Source = {
  text: 'van de Goor & Zijlstra 1968, ILRI; Indonesian irrigation planning criteria KP-01: 250 mm, 300 mm after 2.5 months or more of fallow',
  mark: 'second-hand',
};
