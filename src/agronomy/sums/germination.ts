/** The germination test: how many bags and seeds are taken, and what the sprouted seeds tell. */
import { figure, type Rulebook } from '../rulebook.ts';
import { notANumber, notWhole } from './check-input.ts';
import { type Founded, founded, type Refusal, refusal } from './sum.ts';

export interface GerminationInput {
  readonly sprouted: number;
  readonly of: number;
}

export interface Germination extends GerminationInput, Founded {
  readonly percent: number;
  /** Too few sprout: other seed is to be got. */
  readonly otherSeed: boolean;
  /** How many times the usual seed rate is sown, to have as many seedlings; null when none sprouted. */
  readonly timesUsualRate: number | null;
}

export interface GerminationTest extends Founded {
  readonly bags: number;
  /** Bags from which seed is taken. */
  readonly bagsToOpen: number;
  readonly lots: number;
  readonly seedsALot: number;
}

/**
 * Seeds that sprouted out of those laid out, as a percentage: 82 of 100 is 82. Refuses parts of seeds and numbers below 0
 * ("not-whole"), no seeds ("seeds-none"), fewer than `germination.seeds.least`, of which chance tells too much ("seeds-few"),
 * and more sprouted than laid out ("sprouted-over").
 */
export function germination({ sprouted, of }: GerminationInput, book: Rulebook): Germination | Refusal {
  const wrong = notANumber(sprouted, of) ?? notWhole(sprouted) ?? notWhole(of);
  if (wrong) return wrong;
  if (of === 0) return refusal('seeds-none', of);
  if (of < figure(book, 'germination.seeds.least')) return refusal('seeds-few', of);
  if (sprouted > of) return refusal('sprouted-over', `${sprouted} of ${of}`);
  const percent = (100 * sprouted) / of;
  return {
    sprouted,
    of,
    percent,
    otherSeed: isPoorSeed(book, percent),
    timesUsualRate: sprouted === 0 ? null : figure(book, 'seed.rate-germination') / percent,
    ...founded(book, ['germination.least', 'seed.rate-germination']),
  };
}

/** Whether so few sprout, in %, that other seed should be got. */
export const isPoorSeed = (book: Rulebook, percent: number): boolean =>
  percent < figure(book, 'germination.least');

/** How a stock of bags is tested: lots of seeds from its square root of bags, rounded up. Refuses no bags ("bags-none") and parts of bags. */
export function germinationTest(bags: number, book: Rulebook): GerminationTest | Refusal {
  const wrong = notANumber(bags) ?? notWhole(bags);
  if (wrong) return wrong;
  if (bags === 0) return refusal('bags-none', bags);
  return {
    bags,
    bagsToOpen: Math.ceil(Math.sqrt(bags)),
    lots: figure(book, 'germination.lots'),
    seedsALot: figure(book, 'germination.lot'),
    ...founded(book, ['germination.lots', 'germination.lot']),
  };
}
