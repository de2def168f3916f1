/** WHY behind a field sum: what it was reckoned with, and from where. */
import { figure, type Rulebook } from '../agronomy/rulebook.ts';
import type { SumName } from '../hear/reading.ts';
import type { Message } from '../say/message.ts';
import { numbersFor } from './numbers.ts';
import type { PlotWorld } from './world.ts';

/** Figures whose sources are named. */
const FOUNDED_ON: Readonly<Partial<Record<SumName, readonly string[]>>> = {
  level: ['level-range.max'],
  germination: ['seed.rate-germination', 'germination.least'],
  phases: ['flowering-before-maturity'],
};

/** "Why: 40 kg a hectare where 80 in 100 sprout (IRRI, wet-bed nursery)". */
export function whySum(book: Rulebook, sum: SumName, plot: PlotWorld): Message {
  const key = `why.sum-${sum}`;
  const values = sum === 'seed' ? seedNumbers(book, plot) : numbersFor(book, key);
  const reason: Message = Object.keys(values).length > 0 ? { key, values } : { key };
  const source = sourcesOf(book, sum === 'seed' ? [rateOf(plot)] : (FOUNDED_ON[sum] ?? []));
  return source === ''
    ? { key: 'why.bare', values: { reason } }
    : { key: 'why.reason', values: { reason, source } };
}

const rateOf = ({ season: { way } }: PlotWorld) =>
  `seed.rate.${way.establishment === 'wet-seed' ? 'wet-seed' : way.nursery}.max`;

const seedNumbers = (book: Rulebook, plot: PlotWorld) => ({
  rate: figure(book, rateOf(plot)),
  usual: figure(book, 'seed.rate-germination'),
});

function sourcesOf(book: Rulebook, figures: readonly string[]): string {
  const sources = figures.flatMap((key) => book.figures[key]?.sources ?? []);
  const names = sources
    .filter(({ mark }) => mark !== 'judgement')
    .map(({ text }) => text.split(':')[0] ?? '');
  return [...new Set(names)].slice(0, 2).join('; ');
}
