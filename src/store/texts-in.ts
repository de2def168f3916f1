/** Every text that came in, with its answer: the same delivery twice finds its first answer here. */
import { measure } from '../say/parts.ts';
import type { PricePerPart } from '../scheme/group-section.ts';
import { type Executor, readyQuery } from './ready-query.ts';
import type { Flag, TextsInTable } from './tables.ts';
import { costOf } from './text-cost.ts';

/** What ids of words begin with that were picked on screens, not texted. */
export const SCREEN_IDS = 'screen ';

/** A text that came in, with its answer. */
export interface NewTextIn
  extends Pick<
    TextsInTable,
    'id' | 'carrier_id' | 'phone' | 'turn' | 'body' | 'received_ms' | 'answer' | 'faulty'
  > {
  readonly carrier_parts?: number | null;
  readonly delivery_token?: string | null;
  /** 1 when the answer goes by the outbox and is counted there, or is no text at all. */
  readonly answer_queued?: Flag;
}

type TextInRow = Omit<TextsInTable, 'answer_queued'> & { readonly answer_queued: Flag };

const selectAnswer = readyQuery((db, at: { carrierId: string }) =>
  db.selectFrom('texts_in').select(['answer', 'answer_queued']).where('carrier_id', '=', at.carrierId),
);

const selectByToken = readyQuery((db, at: { token: string }) =>
  db.selectFrom('texts_in').select(['answer', 'answer_queued']).where('delivery_token', '=', at.token),
);

const insertText = readyQuery((db, row: TextInRow) =>
  db.insertInto('texts_in').values({
    id: row.id,
    carrier_id: row.carrier_id,
    phone: row.phone,
    turn: row.turn,
    body: row.body,
    received_ms: row.received_ms,
    answer: row.answer,
    faulty: row.faulty,
    encoding: row.encoding,
    units: row.units,
    parts: row.parts,
    carrier_parts: row.carrier_parts,
    answer_encoding: row.answer_encoding,
    answer_units: row.answer_units,
    answer_parts: row.answer_parts,
    answer_price: row.answer_price,
    currency: row.currency,
    delivery_token: row.delivery_token,
    answer_queued: row.answer_queued,
  }),
);

/**
 * The answer given to this delivery before, found by its id, or by the mark of the delivery where there is one; null when it
 * is new. An answer that went by the outbox is not given twice.
 */
export async function answeredBefore(
  db: Executor,
  carrierId: string,
  token: string | null = null,
): Promise<{ readonly answer: string | null } | null> {
  const byId = await selectAnswer(db, { carrierId });
  const found = byId[0] ?? (token === null ? undefined : (await selectByToken(db, { token }))[0]);
  if (found === undefined) return null;
  return { answer: found.answer_queued === 1 ? null : found.answer };
}

/** Keeps the text with its answer, both measured, the answer at the scheme's price; throws when this delivery is kept already. */
export async function keepText(db: Executor, text: NewTextIn, price: PricePerPart | null): Promise<void> {
  await insertText(db, {
    ...text,
    ...measure(text.body),
    ...answerColumns(text, price),
    carrier_parts: text.carrier_parts ?? null,
    delivery_token: text.delivery_token ?? null,
    answer_queued: text.answer_queued ?? 0,
  });
}

/** Empty where no answer leaves with the carrier's own request. */
function answerColumns({ answer, answer_queued: queued }: NewTextIn, pricePerPart: PricePerPart | null) {
  if (answer === null || answer.trim() === '' || queued === 1)
    return {
      answer_encoding: null,
      answer_units: null,
      answer_parts: null,
      answer_price: null,
      currency: null,
    };
  const { encoding, units, parts } = measure(answer);
  const { price, currency } = costOf(parts, pricePerPart);
  const size = { answer_encoding: encoding, answer_units: units, answer_parts: parts };
  return { ...size, answer_price: price, currency };
}

/** Ids looked up with one query. */
const IDS_TOGETHER = 500;

/** Those of the ids under which a text is kept. */
export async function knownIds(db: Executor, carrierIds: readonly string[]): Promise<ReadonlySet<string>> {
  const known = new Set<string>();
  for (let at = 0; at < carrierIds.length; at += IDS_TOGETHER) {
    const some = carrierIds.slice(at, at + IDS_TOGETHER);
    const rows = db.selectFrom('texts_in').select('carrier_id').where('carrier_id', 'in', some);
    for (const { carrier_id: id } of await rows.execute()) known.add(id);
  }
  return known;
}

/** When the newest text came in; null before the first. */
export async function newestReceivedMs(db: Executor): Promise<number | null> {
  const newest = db.selectFrom('texts_in').select((eb) => eb.fn.max('received_ms').as('ms'));
  const ms = (await newest.executeTakeFirst())?.ms ?? null;
  return ms === null ? null : Number(ms);
}

/** Whether a text of this phone came in after the instant. */
export async function textedSince(db: Executor, phone: string, ms: number): Promise<boolean> {
  const later = db.selectFrom('texts_in').select('id').where('received_ms', '>', ms);
  return (await later.where('phone', '=', phone).limit(1).executeTakeFirst()) !== undefined;
}

/** How many texts of this phone failed after the instant and were answered with a sorry. */
export async function sorriesSince(db: Executor, phone: string, ms: number): Promise<number> {
  const failed = db.selectFrom('texts_in').where('phone', '=', phone).where('faulty', '=', 1);
  const told = failed.where('received_ms', '>', ms).where('answer', 'is not', null);
  const row = await told.select((eb) => eb.fn.countAll().as('count')).executeTakeFirst();
  return Number(row?.count ?? 0);
}
