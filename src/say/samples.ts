/**
 * Long but real values for every placeholder, for the sheet and the length checks; the same in every language. A name may stand
 * behind a message's key ("trouble.noted.what") or plural form ("plot.name_one.plots") to hold there alone.
 */
import type { Message, Value } from './message.ts';

/**
 * A value; or the longest text that the language has among messages under a key ("*" stands for any one name); or its longest day.
 * A longest text is built with the samples written before it.
 */
export type Sample = Value | { readonly longestOf: string } | { readonly longestDay: true };

const LONGEST_DAY: Sample = { longestDay: true };

const step = (activity: string, day: number, values?: Message['values']): Message => ({
  key: 'dates.step',
  values: { do: { key: `do.${activity}`, ...(values && { values }) }, day: { day } },
});
const STEPS = [
  step('soak', 20870, { min: 10, max: 15 }),
  step('plough', 20877, { min: 10, max: 15 }),
  step('flood', 20879, { depth: 10 }),
  step('sow-nursery', 20893),
  step('puddle', 20894),
];

/** As many as one phone can join with. */
const PLOTS = ['1', '2', '3', '4', '5', '6', '7', '8', '9'];
const AREAS = PLOTS.map((number): Message => ({ key: 'join.area', values: { number, area: 0.45 } }));

const ONE_PLOT: Message = { key: 'plot.name', values: { count: 1, plots: { list: ['12'] } } };
const BAGS = ['urea', 'compound'].map(
  (product): Message => ({ key: 'sum.bags', values: { count: 2.5, product } }),
);
const KILOS = ['urea', 'compound'].map(
  (product): Message => ({ key: 'sum.kg', values: { kg: 87.5, product } }),
);

/** Placeholder name to sample. */
export const SAMPLES: Readonly<Record<string, Sample>> = {
  count: 28,
  plot: '12',
  plots: { list: PLOTS },
  'plot.name_one.plots': '12',
  'plot.inside_one.plots': '12',
  number: '12',
  'choice.one.number': 5,
  'choice.send-many.count': 6,
  area: 0.45,
  units: 12.5,
  unit: 'tins',
  areas: { list: AREAS },
  min: 10,
  max: 15,
  depth: 12.5,
  range: 12,
  days: 135,
  tillage: { longestOf: 'join.with' },
  age: 33,
  extra: 2,
  mm: 125,
  hours: 24,
  least: 30,
  most: 60,
  sum: 1250,
  need: 200,
  percent: 50,
  planting: LONGEST_DAY,
  day: LONGEST_DAY,
  from: LONGEST_DAY,
  to: LONGEST_DAY,
  earliest: LONGEST_DAY,
  latest: LONGEST_DAY,
  due: { longestOf: 'day' },
  'tip.sow-nursery.day': { longestOf: 'day' },
  scheme: 'Orrowe Valley',
  block: 'Lower East',
  name: 'Wilhelmina Okonjo',
  officer: 'Bartholomew Adeyemi',
  phone: '+447700900123',
  languages: { list: ['English', 'Francais', 'Kiswahili'] },
  said: 'Wednesday 31 September',
  source: 'IIRR, Low-external Input Rice Production, wet-bed nursery',
  which: { longestOf: 'plot.name' },
  'plot.sized.what': { longestOf: 'plot.name' },
  inside: { longestOf: 'plot.inside' },
  'join.sure.plots': { longestOf: 'plot.inside' },
  activity: { longestOf: 'activity' },
  word: { longestOf: 'word' },
  do: { longestOf: 'do' },
  done: { longestOf: 'done' },
  steps: { list: STEPS },
  cost: { longestOf: 'cost' },
  reason: { longestOf: 'why' },
  state: { longestOf: 'plots.state-done' },
  what: { longestOf: 'choice.report-unknown' },
  'sum.no-depth.what': 300,
  'sum.no-area.what': 0,
  'sum.no-figure.what': 300,
  'sum.no-need.what': '900 K2O',
  'sum.no-product.what': 'K2O',
  'trouble.noted.what': { longestOf: 'trouble' },
  panicle: LONGEST_DAY,
  'why.sum-phases.panicle': 65,
  flowering: LONGEST_DAY,
  'why.sum-phases.flowering': 30,
  drain: LONGEST_DAY,
  harvest: LONGEST_DAY,
  soak: LONGEST_DAY,
  sow: LONGEST_DAY,
  'sum.topdress-days.days': { list: [{ day: 20893 }, { day: 20914 }] },
  month: { month: 9 },
  cut: { list: [1, 2, 5, 9] },
  fill: { list: [3, 4, 6, 7] },
  m3: 1250,
  barrows: 1250,
  m2: 450,
  deep: 250,
  'sum.phases.days': 135,
  cm: 12.5,
  kg: 87.5,
  hills: 25,
  seedlings: 4,
  teams: 12,
  n: 112.5,
  p2o5: 56.3,
  k2o: 37.5,
  rate: 100,
  usual: 80,
  evaporation: 5.5,
  percolation: 4,
  'sum.of-plot.which': ONE_PLOT,
  'sum.level-uneven.which': ONE_PLOT,
  'sum.level-uneven.max': 5,
  'sum.phases.which': ONE_PLOT,
  'sum.phases-date.which': ONE_PLOT,
  'sum.planted.which': ONE_PLOT,
  'sum.no-unit.said': 'guntas',
  'sum.spot-corner.number': 4,
  'sum.spot-middle.number': 5,
  'sum.spot-side.number': 9,
  'sum.phases-harvest-date.which': ONE_PLOT,
  'sum.phases-sowing-day.which': ONE_PLOT,
  whose: { longestOf: 'sum.of-plot' },
  product: 'compound',
  bags: { list: BAGS },
  list: { list: KILOS },
};
