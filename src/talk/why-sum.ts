/** WHY behind a field sum: what it was reckoned with, and from where. */
import { figure, type Rulebook } from '../agronomy/rulebook.ts';
import { isRefusal } from '../agronomy/sums/sum.ts';
import type { SumName } from '../hear/reading.ts';
import type { Message } from '../say/message.ts';
import { numbersFor } from './numbers.ts';
import type { Topic } from './state.ts';
import { waterOf } from './sum-water.ts';
import type { PlotWorld, World } from './world.ts';

/** A reason, and the sources of its figures. */
interface Reason {
  readonly reason: Message;
  readonly sources: readonly string[];
}

/** Figures whose sources are named. */
const FOUNDED_ON: Readonly<Partial<Record<SumName, readonly string[]>>> = {
  level: ['level-range.max'],
  germination: ['seed.rate-germination', 'germination.least'],
  phases: ['flowering-before-maturity'],
  water: ['soaking.depth', 'percolation'],
};

const VARIANTS = { plain: [], depth: [], month: ['effective-rain.much.share', 'crop-factor.full'] } as const;

/** Sources named in one text. */
const MOST_SOURCES = 2;

/** "Why: 40 kg a hectare where 80 in 100 sprout (IRRI, wet-bed nursery)". */
export function whySum(world: World, sum: SumName, plot: PlotWorld, variant: Topic['variant']): Message {
  const { reason, sources } = reasonOf(world, sum, plot, variant);
  const named = sources.slice(0, MOST_SOURCES).join('; ');
  return named === ''
    ? { key: 'why.bare', values: { reason } }
    : { key: 'why.reason', values: { reason, source: named } };
}

function reasonOf(world: World, sum: SumName, plot: PlotWorld, variant: Topic['variant']): Reason {
  const { rulebook: book } = world;
  if (variant !== undefined && variant !== 'own')
    return { reason: { key: `why.sum-${sum}-${variant}` }, sources: sourcesOf(book, VARIANTS[variant]) };
  const key = `why.sum-${sum}`;
  const advice = variant === 'own' ? undefined : world.scheme.nutrients?.recommendation;
  if (sum === 'nutrients' && advice) {
    const { source, ...need } = advice;
    return { reason: { key: `${key}-advice`, values: need }, sources: [source] };
  }
  const figures = sum === 'seed' ? [rateOf(plot)] : (FOUNDED_ON[sum] ?? []);
  const values = sum === 'water' ? waterNumbers(world, plot) : numbersOf(book, sum, key, plot);
  return {
    reason: Object.keys(values).length > 0 ? { key, values } : { key },
    sources: sourcesOf(book, figures),
  };
}

const numbersOf = (book: Rulebook, sum: SumName, key: string, plot: PlotWorld) =>
  sum === 'seed' ? seedNumbers(book, plot) : numbersFor(book, key);

/** Those that the plot's water was reckoned with. */
function waterNumbers(world: World, plot: PlotWorld): Record<string, number> {
  const water = waterOf(world, plot);
  if (isRefusal(water)) return {};
  const { soakDepthMm, evaporationMmPerDay, percolationMmPerDay } = water;
  return { depth: soakDepthMm, evaporation: evaporationMmPerDay, percolation: percolationMmPerDay };
}

const rateOf = ({ season: { way } }: PlotWorld) =>
  `seed.rate.${way.establishment === 'wet-seed' ? 'wet-seed' : way.nursery}.max`;

const seedNumbers = (book: Rulebook, plot: PlotWorld) => ({
  rate: figure(book, rateOf(plot)),
  usual: figure(book, 'seed.rate-germination'),
});

function sourcesOf(book: Rulebook, figures: readonly string[]): readonly string[] {
  const sources = figures.flatMap((key) => book.figures[key]?.sources ?? []);
  const names = sources
    .filter(({ mark }) => mark !== 'judgement')
    .map(({ text }) => text.split(':')[0] ?? '');
  return [...new Set(names)];
}
