/** Texts with all that befalls them on their way over a carrier that misbehaves, at random. */
import * as fc from 'fast-check';
import type { Deed } from '../../src/commands/fake-carrier/fake-carrier.ts';
import type { ReceiptOut } from '../../src/commands/fake-carrier/receipts.ts';
import { DAY_MS, HOUR_MS } from './test-line.ts';

/** What becomes of one text: deeds of its posts and of its look-ups in their order, then all is well. */
export interface Fate {
  readonly posts: readonly Deed[];
  readonly lists: readonly Deed[];
  readonly early: readonly ReceiptOut[];
  readonly later: readonly ReceiptOut[];
  readonly forMs: number;
  /** Where it has to end. */
  readonly end: 'arrives' | 'refused' | 'lost-track' | 'expired';
}

/** So that the text comes to its end well before a day is over. */
const MOST_MISDEEDS = 3;

const notTaken = fc.constantFrom<Deed>(
  'fault-before',
  'hang-before',
  'reset-before',
  { status: 429, code: 20429 },
  { status: 429, retryAfter: '900' },
  { status: 401, code: 20003 },
  { status: 503 },
);
const taken = fc.constantFrom<Deed>('fault-after', 'hang-after', 'reset-after', 'no-json');
const blind = fc.constantFrom<Deed>('fault-before', 'hang-before', 'reset-before', 'no-json', {
  status: 429,
});
const refusal = fc.constantFrom(21211, 21612, 21614, 30006).map((code): Deed => ({ status: 400, code }));

const receipts = fc
  .record({
    on: fc.subarray<ReceiptOut>([{ status: 'queued' }, { status: 'sending' }, { status: 'sent' }]),
    last: fc.constantFrom<readonly ReceiptOut[]>(
      [],
      [{ status: 'delivered' }],
      [{ status: 'delivered' }, { status: 'read' }],
      [{ status: 'undelivered', code: 30006 }],
    ),
    cut: fc.nat({ max: 5 }),
  })
  .map(({ on, last, cut }) => {
    const all = [...on, ...last];
    return { early: all.slice(0, cut % (all.length + 1)), later: all.slice(cut % (all.length + 1)) };
  });

const WELL = { lists: [], early: [], later: [], forMs: DAY_MS } as const;
const arrives = fc
  .record({
    before: fc.array(notTaken, { maxLength: 2 }),
    after: fc.array(taken, { maxLength: 1 }),
    lists: fc.array(blind, { maxLength: 1 }),
    told: receipts,
  })
  .filter(({ before, after, lists }) => before.length + after.length + lists.length <= MOST_MISDEEDS)
  .map(({ before, after, lists, told }) => {
    const posts = [...before, ...after];
    return { ...WELL, posts, lists, ...told, end: 'arrives' } as const;
  });
const refused = fc
  .tuple(fc.array(notTaken, { maxLength: 2 }), refusal)
  .map(
    ([before, last]) => ({ ...WELL, posts: [...before, ...Array(9).fill(last)], end: 'refused' }) as const,
  );
/** Down for hours: the text waits for it. */
const longDown = fc.constant({ ...WELL, posts: Array(20).fill('reset-before'), end: 'arrives' } as const);
/** Taken, and not to be found again before it is worth nothing. */
const lostTrack = receipts.map(({ later }) => {
  const lists: readonly Deed[] = Array(60).fill('fault-before');
  return { ...WELL, posts: ['fault-after'], lists, later, forMs: HOUR_MS, end: 'lost-track' } as const;
});
const expired = fc.constant({
  ...WELL,
  posts: Array(9).fill({ status: 429, retryAfter: '1800' }),
  forMs: HOUR_MS,
  end: 'expired',
} as const);

const fates: fc.Arbitrary<Fate> = fc.oneof(
  { weight: 12, arbitrary: arrives },
  { weight: 3, arbitrary: refused },
  { weight: 1, arbitrary: longDown },
  { weight: 2, arbitrary: lostTrack },
  { weight: 1, arbitrary: expired },
);

/** So many fates, the same for the same seed. */
export function fatesOf(count: number, seed: number): readonly Fate[] {
  return fc.sample(fates, { numRuns: count, seed });
}

/** Some of them twice, in another order. */
export function mixed<One>(all: readonly One[], seed: number): readonly One[] {
  const doubled = all.flatMap((one, i) => (i % 3 === 0 ? [one, one] : [one]));
  const order = fc.shuffledSubarray(doubled, { minLength: doubled.length });
  return fc.sample(order, { numRuns: 1, seed })[0] ?? [];
}
