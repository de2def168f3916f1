/** The texts of one broadcast in the outbox: named by keys that lie side by side, so that they are found by a range. */
import type { BroadcastHead } from '../talk/broadcast.ts';
import type { KeptBroadcast } from './broadcasts.ts';
import { AGAIN } from './outbox.ts';
import { byNumber } from './plots.ts';
import { type Executor, readyQuery } from './ready-query.ts';

/** What the keys of a broadcast's texts begin with; the phone follows, and for appointments ":" and the person. */
export function keyPrefix(id: string): string {
  return `broadcast:${id}:`;
}

/** Phones or people looked up at once. */
const TOGETHER = 500;

/** All keys of a broadcast lie from `from` on and before `to`. */
const keysOf = (id: string) => ({ from: keyPrefix(id), to: `broadcast:${id};` });

/** The same of its second texts. */
const againKeysOf = (id: string) => ({ from: AGAIN + keyPrefix(id), to: `${AGAIN}broadcast:${id};` });

/** How the texts of a broadcast stand. */
export interface TextsOf {
  readonly phones: number;
  /** Phones of which a text was handed over and no receipt has come yet. */
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
const selectFailed = readyQuery((db, at: { from: string; to: string }) =>
  db
    .selectFrom('outbox')
    .select(['key', 'phone', 'why'])
    .where('key', '>=', at.from)
    .where('key', '<', at.to)
    .where((eb) => eb(eb.fn.coalesce('state', eb.val('')), '=', 'failed'))
    .orderBy('key'),
);

const selectAgain = readyQuery((db, at: { from: string; to: string }) =>
  db.selectFrom('outbox').select(['key', 'state']).where('key', '>=', at.from).where('key', '<', at.to),
);

/** Whether a text of the broadcast still waits to be handed over. */
export async function isSending(db: Executor, id: string): Promise<boolean> {
  return (await selectQueued(db, keysOf(id))).length > 0;
}

/** Counts the broadcast's phones. */
export async function countTexts(db: Executor, id: string): Promise<TextsOf> {
  const rows = await selectCounts(db, keysOf(id));
  const [all] = await selectPhones(db, keysOf(id));
  return {
    phones: Number(all?.phones ?? 0),
    handed: Number(rows.find(({ state }) => state === 'handed')?.phones ?? 0),
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

/** A text of a broadcast that its phone did not get. */
export interface FailedText {
  readonly key: string;
  readonly phone: string;
  readonly why: string | null;
  /** A second text is under way to the phone: nobody knows yet. */
  readonly isTriedAgain: boolean;
}

/** The texts that failed, by key, but for those whose second text arrived. */
export async function failedTexts(db: Executor, id: string): Promise<readonly FailedText[]> {
  const failed = await selectFailed(db, keysOf(id));
  if (failed.length === 0) return [];
  const again = new Map((await selectAgain(db, againKeysOf(id))).map(({ key, state }) => [key, state]));
  const stateOf = ({ key }: { readonly key: string }) => again.get(AGAIN + key);
  return failed
    .filter((text) => stateOf(text) !== 'delivered')
    .map((text) => ({ ...text, isTriedAgain: ['queued', 'handed'].includes(stateOf(text) ?? '') }));
}

/**
 * Labels ("A-17"; "Ann 2" where a plot has none) of the plots of those whose texts these are, that the broadcast is about: in the
 * order of the texts, and of each phone or person by number.
 */
export async function plotsOfTexts(
  db: Executor,
  { id, head }: KeptBroadcast,
  texts: readonly FailedText[],
): Promise<readonly string[]> {
  const labels = new Set<string>();
  for (let from = 0; from < texts.length; from += TOGETHER) {
    const names = texts.slice(from, from + TOGETHER).map((text) => nameIn(id, head, text));
    const plots =
      head.kind === 'words'
        ? (await plotsOfPhones(db, names)).filter(({ block_id }) => head.blockIds.includes(block_id))
        : await plotsAppointed(db, names, id, head.kind);
    const placeOf = new Map(names.map((one, place) => [one, place]));
    const inOrder = plots.toSorted(
      (a, b) => (placeOf.get(a.of) ?? 0) - (placeOf.get(b.of) ?? 0) || byNumber(a.number, b.number),
    );
    for (const { label, name, number } of inOrder) labels.add(label ?? `${name} ${number}`);
  }
  return [...labels];
}

/** Words go to a phone, appointments to a person. */
function nameIn(id: string, head: BroadcastHead, { key, phone }: FailedText): string {
  return head.kind === 'words' ? phone : key.slice(keyPrefix(id).length + phone.length + 1);
}

/** Of all blocks: a list of blocks would be gone through once for every piece. */
const plotsOfPhones = (db: Executor, phones: readonly string[]) =>
  db
    .selectFrom('phone_people')
    .innerJoin('people', 'people.id', 'phone_people.person_id')
    .innerJoin('plots', 'plots.owner_id', 'people.id')
    .innerJoin('seasons', 'seasons.plot_id', 'plots.id')
    .select(['phone_people.phone as of', 'plots.label', 'plots.number', 'people.name', 'plots.block_id'])
    .where('phone_people.phone', 'in', phones)
    .where('seasons.open', '=', 1)
    .execute();

const plotsAppointed = (db: Executor, personIds: readonly string[], id: string, kind: 'water' | 'team') =>
  db
    .selectFrom('plots')
    .innerJoin('people', 'people.id', 'plots.owner_id')
    .innerJoin('appointments', 'appointments.plot_id', 'plots.id')
    .select(['people.id as of', 'plots.label', 'plots.number', 'people.name'])
    .where('plots.owner_id', 'in', personIds)
    .where('appointments.kind', '=', kind)
    .where('appointments.broadcast_id', '=', id)
    .execute();
