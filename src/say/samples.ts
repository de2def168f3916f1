/** Long but real values for every placeholder, by name, for the sheet and the length checks. The same in every language. */
import type { Value } from './message.ts';

/** A value; or the longest text that the language has for any message under a key; or its longest day. */
export type Sample = Value | { readonly longestOf: string } | { readonly longestDay: true };

const DAY: Sample = { longestDay: true };
const ACTIVITY: Sample = { longestOf: 'activity' };

/** Placeholder name to sample. */
export const SAMPLES: Readonly<Record<string, Sample>> = {
  count: 28,
  plot: '12',
  plots: { list: ['1', '2', '12'] },
  label: 'A-17',
  block: 'Lower East',
  scheme: 'Orrowe Valley',
  code: 'ORROWE',
  name: 'Wilhelmina Okonjo',
  officer: 'Bartholomew Adeyemi',
  phone: '+447700900123',
  day: DAY,
  from: DAY,
  to: DAY,
  by: DAY,
  till: DAY,
  activity: ACTIVITY,
  next: ACTIVITY,
};
