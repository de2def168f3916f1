/** What a carrier does wrong with texts, receipts and look-ups, by lot; so seldom that every text arrives within its tries. */
import type { Deed, Kept, Posted, Reports, Waiting } from './fake-carrier.ts';
import { type Lot, pick } from './lot.ts';
import type { ReceiptOut } from './receipts.ts';

/** A deed with the name under which it is counted. */
export interface Misdeed {
  readonly name: string;
  readonly deed: Deed;
}

const NOT_TAKEN: readonly Misdeed[] = [
  { name: '500 before the text was taken', deed: 'fault-before' },
  { name: 'connection reset before the text was taken', deed: 'reset-before' },
  { name: 'no answer, text not taken', deed: 'hang-before' },
  { name: '429', deed: { status: 429, code: 20429 } },
  { name: '429 with a time to wait', deed: { status: 429, retryAfter: '300' } },
];
const TAKEN: readonly Misdeed[] = [
  { name: '500 after the text was taken', deed: 'fault-after' },
  { name: 'connection reset after the text was taken', deed: 'reset-after' },
  { name: 'no answer, text taken', deed: 'hang-after' },
  { name: 'an answer that is no JSON, text taken', deed: 'no-json' },
];
const BLIND: readonly Misdeed[] = [
  { name: 'look-up: 500', deed: 'fault-before' },
  { name: 'look-up: connection reset', deed: 'reset-before' },
  { name: 'look-up: no answer', deed: 'hang-before' },
];

/** Shares of posts, look-ups and receipts that something befalls. A text is posted in vain at most so often. */
const [BAD_POSTS, BAD_LOOK_UPS, MOST_BAD_POSTS] = [0.45, 0.2, 2];
const [DOUBLE_RECEIPTS, LATE_RECEIPTS] = [0.25, 0.2];
/**
 * Texts of which nothing is heard for a long time, and the share of them of which something is in each round: where a hand-over
 * ended without an answer, only a look-up tells then that the text was taken.
 */
const [SILENT_TEXTS, WAKES] = [0.6, 0.1];

/** What befalls this post of a text; null when it goes well. */
export function postMisdeed(lot: Lot, { to, body, time }: Posted): Misdeed | null {
  const name = `post ${to} ${time} ${body}`;
  if (time > MOST_BAD_POSTS || lot(name) >= BAD_POSTS) return null;
  return pick(lot, `which ${name}`, [...NOT_TAKEN, ...TAKEN]) ?? null;
}

/** What befalls a phone's look-up of this count; never two in a row. */
export function lookUpMisdeed(lot: Lot, to: string, count: number): Misdeed | null {
  const isBad = (at: number) => at > 0 && lot(`look-up ${to} ${at}`) < BAD_LOOK_UPS;
  if (!isBad(count) || isBad(count - 1)) return null;
  return pick(lot, `which look-up ${to} ${count}`, BLIND) ?? null;
}

const RECEIPTS: readonly ReceiptOut[] = [{ status: 'queued' }, { status: 'sent' }, { status: 'delivered' }];

/** A text's receipts; some come before the answer to its hand-over. */
export function receiptsOf(lot: Lot, { to, body }: Pick<Kept, 'to' | 'body'>): Reports {
  const early = pick(lot, `early ${to} ${body}`, [0, 0, 0, 0, 1, 3]) ?? 0;
  return { early: RECEIPTS.slice(0, early), later: RECEIPTS.slice(early) };
}

/** The receipts of one round: in what order, which twice, and which are kept back for the next round. */
export interface Round {
  readonly now: readonly Waiting[];
  readonly kept: readonly Waiting[];
  readonly doubled: number;
  /** Those that come after one of the same text which was sent later. */
  readonly overtaken: number;
}

/** Mixes the receipts that wait; `isLast` keeps none back. */
export function mixReceipts(lot: Lot, waiting: readonly Waiting[], round: number, isLast: boolean): Round {
  const named = waiting.map((one) => ({ one, name: `${nameOf(one)} ${round}` }));
  const isLate = ({ one, name }: (typeof named)[number]) =>
    !isLast && (lot(`late ${name}`) < LATE_RECEIPTS || isSilent(lot, one, round));
  const now = named
    .filter((one) => !isLate(one))
    .flatMap((one) =>
      lot(`twice ${one.name}`) < DOUBLE_RECEIPTS ? [one, { ...one, name: `${one.name} again` }] : [one],
    )
    .map(({ one, name }) => ({ one, name, place: lot(`place ${name}`) }))
    .sort((a, b) => a.place - b.place);
  return {
    now: now.map(({ one }) => one),
    kept: named.filter(isLate).map(({ one }) => one),
    doubled: now.filter(({ name }) => name.endsWith(' again')).length,
    overtaken: now.filter(({ one }, at) => now.slice(0, at).some((before) => overtook(before.one, one)))
      .length,
  };
}

function isSilent(lot: Lot, { text: { to, body } }: Waiting, round: number): boolean {
  return lot(`silent ${to} ${body}`) < SILENT_TEXTS && lot(`wakes ${to} ${body} ${round}`) >= WAKES;
}

const nameOf = ({ text: { to, body }, receipt: { status } }: Waiting) => `${status} ${to} ${body}`;

const stepOf = ({ status }: ReceiptOut) => RECEIPTS.findIndex((one) => one.status === status);

function overtook(before: Waiting, one: Waiting): boolean {
  return before.text === one.text && stepOf(before.receipt) > stepOf(one.receipt);
}
