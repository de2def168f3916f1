/** The texts of one broadcast in the outbox: named by keys that lie side by side, so that they are found by a range. */
import type { BroadcastHead } from '../talk/broadcast.ts';
import type { KeptBroadcast } from './broadcasts.ts';
import { byNumber } from './plots.ts';
import { type Executor, readyQuery } from './ready-query.ts';
import type { OutboxTable } from './tables.ts';

/** What the keys of a broadcast's texts begin with; the phone follows, and for appointments ":" and the person. */
export function keyPrefix(id: string): string {
  return `broadcast:${id}:`;
}

/** A person whose text failed may have no plot by now: so many more are looked at than plots are wanted. */
const PEOPLE_A_PLOT = 4;

/** All keys of a broadcast lie from `from` on and before `to`. */
const keysOf = (id: string) => ({ from: keyPrefix(id), to: `broadcast:${id};` });

/** How the texts of a broadcast stand. */
export interface TextsOf {
  readonly phones: number;
  /** Delivered, or handed over without a receipt yet. */
  readonly reached: number;
  readonly handed: number;
  /** When the last of them was settled; 0 when none was. */
  readonly lastSettledMs: number;
}

/** The last are sent last: while sending is under way, one of them is found at once. */
const selectQueued = readyQuery((db, at: { from: string; to: string }) =>
  db
    .selectFrom('outbox')
    .select('key')
    .where('key', '>=', at.from)
    .where('key', '<', at.to)
    .where((eb) => eb(eb.fn.coalesce('state', eb.val('')), '=', 'queued'))
    .orderBy('key', 'desc')
    .limit(1),
);

const selectCounts = readyQuery((db, at: { from: string; to: string }) =>
  db
    .selectFrom('outbox')
    .select(['state', (eb) => eb.fn.count('phone').distinct().as('phones')])
    .select((eb) => eb.fn.max('settled_ms').as('last'))
    .where('key', '>=', at.from)
    .where('key', '<', at.to)
    .groupBy('state'),
);

const selectPhones = readyQuery((db, at: { from: string; to: string }) =>
  db
    .selectFrom('outbox')
    .select((eb) => eb.fn.count('phone').distinct().as('phones'))
    .where('key', '>=', at.from)
    .where('key', '<', at.to),
);

/** Reading the state through a function keeps the query at the keys, and off all that ever failed. */
const selectFailed = readyQuery((db, at: { from: string; to: string; most: number }) =>
  db
    .selectFrom('outbox')
    .select(['key', 'phone'])
    .where('key', '>=', at.from)
    .where('key', '<', at.to)
    .where((eb) => eb(eb.fn.coalesce('state', eb.val('')), '=', 'failed'))
    .orderBy('key')
    .limit(at.most),
);

/** Whether a text of the broadcast still waits to be handed over. */
export async function isSending(db: Executor, id: string): Promise<boolean> {
  return (await selectQueued(db, keysOf(id))).length > 0;
}

/** Counts the broadcast's phones; one of which a text failed, or is still queued, is not reached. */
export async function countTexts(db: Executor, id: string): Promise<TextsOf> {
  const rows = await selectCounts(db, keysOf(id));
  const phonesIn = (states: readonly OutboxTable['state'][]) =>
    rows.reduce((sum, { state, phones }) => sum + (states.includes(state) ? Number(phones) : 0), 0);
  const [all] = await selectPhones(db, keysOf(id));
  const phones = Number(all?.phones ?? 0);
  return {
    phones,
    reached: Math.max(0, phones - phonesIn(['queued', 'failed'])),
    handed: phonesIn(['handed']),
    lastSettledMs: Math.max(0, ...rows.map(({ last }) => Number(last ?? 0))),
  };
}

/** Puts off what is still queued of the broadcast until this instant. */
export async function holdBack(db: Executor, id: string, untilMs: number): Promise<void> {
  const { from, to } = keysOf(id);
  await db
    .updateTable('outbox')
    .set({ not_before_ms: untilMs })
    .where('key', '>=', from)
    .where('key', '<', to)
    .where('state', '=', 'queued')
    .where('not_before_ms', '<', untilMs)
    .execute();
}

/**
 * Labels ("A-17"; "Ann 2" where a plot has none) of the plots of those whose text failed, that the broadcast is about: at
 * most `most`.
 */
export async function failedPlots(
  db: Executor,
  { id, head }: KeptBroadcast,
  most: number,
): Promise<readonly string[]> {
  const failed = await selectFailed(db, { ...keysOf(id), most: most * PEOPLE_A_PLOT });
  const labels = new Set<string>();
  for (const { key, phone } of failed) {
    if (labels.size >= most) break;
    const personId = key.slice(keyPrefix(id).length + phone.length + 1);
    const plots = await (head.kind === 'words'
      ? plotsInBlocks(db, phone, head)
      : plotsAppointed(db, personId, id, head.kind));
    for (const { label, name, number } of plots.toSorted((a, b) => byNumber(a.number, b.number)))
      labels.add(label ?? `${name} ${number}`);
  }
  return [...labels].slice(0, most);
}

const plotsInBlocks = (db: Executor, phone: string, { blockIds }: BroadcastHead) =>
  db
    .selectFrom('phone_people')
    .innerJoin('people', 'people.id', 'phone_people.person_id')
    .innerJoin('plots', 'plots.owner_id', 'people.id')
    .innerJoin('seasons', 'seasons.plot_id', 'plots.id')
    .select(['plots.label', 'plots.number', 'people.name'])
    .where('phone_people.phone', '=', phone)
    .where('plots.block_id', 'in', blockIds)
    .where('seasons.open', '=', 1)
    .execute();

const plotsAppointed = (db: Executor, personId: string, id: string, kind: 'water' | 'team') =>
  db
    .selectFrom('plots')
    .innerJoin('people', 'people.id', 'plots.owner_id')
    .innerJoin('appointments', 'appointments.plot_id', 'plots.id')
    .select(['plots.label', 'plots.number', 'people.name'])
    .where('plots.owner_id', '=', personId)
    .where('appointments.kind', '=', kind)
    .where('appointments.broadcast_id', '=', id)
    .execute();
