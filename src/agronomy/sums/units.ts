/** How units of water turn into each other. */

/** 1 mm over 1 ha. */
export const M3_IN_MM_HA = 10;

/** What 1 l/s brings in a day, as mm over 1 ha: 86.4 m3. */
export const MM_HA_A_DAY_FROM_LPS = 8.64;

export const HOURS_IN_DAY = 24;
export const HOURS_IN_WEEK = 168;

export const KG_PER_TONNE = 1000;
export const MM_PER_CM = 10;
