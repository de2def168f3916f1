/** What to say to input that no sum can be made of: what is wrong with it, and how to text it. Nothing is recorded. */
import type { Refusal } from '../agronomy/sums/sum.ts';
import { type Part, saying } from './turn.ts';

/** Refusals that share a text. */
const TEXT_OF: Readonly<Record<string, string>> = {
  'spots-few': 'spots',
  'not-a-number': 'spots',
  'depth-below-zero': 'depth',
  'depth-over': 'depth',
  'area-zero': 'area',
  'area-over': 'area',
  'not-whole': 'germination',
  'seeds-none': 'germination',
  'seeds-few': 'seeds-few',
  'sprouted-over': 'germination',
  'germination-zero': 'germination',
  'germination-over': 'germination',
  'teams-zero': 'teams',
  'teams-over': 'teams',
  'no-such-work': 'work',
  'need-range': 'need',
  'need-zero': 'npk',
  'nutrient-lacking': 'product',
};

/** Texts that name what was wrong. */
const WITH_VALUE = ['depth', 'area', 'figure', 'need', 'product'];

/** The question that a refusal raises. */
export function sumRefused({ refused, what }: Refusal, kind = TEXT_OF[refused] ?? 'figure'): Part {
  return saying(`sum.no-${kind}`, WITH_VALUE.includes(kind) ? { what } : {});
}
