/** What the carrier took in a span of time, text by text, and where each phone belongs: what a ledger is summed from. */
import { byNumber } from './plots.ts';
import type { Executor } from './ready-query.ts';
import { SCREEN_IDS } from './texts-in.ts';

/** From the first instant on and before the second. */
export interface SpanMs {
  readonly fromMs: number;
  readonly toMs: number;
}

/** A text that the carrier took. */
export interface TextTaken {
  /** Its key in the outbox; null for an answer that left with the carrier's own request. */
  readonly key: string | null;
  /** Null when its sender was forgotten. */
  readonly phone: string | null;
  readonly parts: number;
  /** Null where the carrier has not told. */
  readonly carrierParts: number | null;
  /** Decimal text; null where the scheme named no price. */
  readonly price: string | null;
  readonly currency: string | null;
}

/** A text that came in. */
export interface TextCame {
  readonly phone: string | null;
  readonly parts: number;
  readonly carrierParts: number | null;
}

/** Where a phone belongs. */
export interface PhonePlace {
  readonly schemeId: string;
  /** The block of its first plot; null without one. */
  readonly blockId: string | null;
}

/** Texts handed over in the span: of the outbox, and answers. */
export async function textsTaken(db: Executor, { fromMs, toMs }: SpanMs): Promise<readonly TextTaken[]> {
  const queued = await db
    .selectFrom('outbox')
    .select(['key', 'phone', 'parts', 'carrier_parts as carrierParts', 'price', 'currency'])
    .where('handed_ms', '>=', fromMs)
    .where('handed_ms', '<', toMs)
    // Answers that a gateway takes from the outbox are reckoned with the texts that they answer.
    .where('key', 'not like', 'answer:%')
    .execute();
  const answers = await db
    .selectFrom('texts_in')
    .select(['phone', 'answer_parts as parts', 'answer_price as price', 'currency'])
    .where('received_ms', '>=', fromMs)
    .where('received_ms', '<', toMs)
    .where('answer_parts', 'is not', null)
    .execute();
  return [
    ...queued.map((text) => ({ ...text, parts: text.parts ?? 0 })),
    ...answers.map((text) => ({ ...text, parts: text.parts ?? 0, key: null, carrierParts: null })),
  ];
}

/** Texts that came in within the span. */
export async function textsCame(db: Executor, { fromMs, toMs }: SpanMs): Promise<readonly TextCame[]> {
  const texts = await db
    .selectFrom('texts_in')
    .select(['phone', 'parts', 'carrier_parts as carrierParts'])
    .where('received_ms', '>=', fromMs)
    .where('received_ms', '<', toMs)
    .where('carrier_id', 'not like', `${SCREEN_IDS}%`)
    .execute();
  return texts.map((text) => ({ ...text, parts: text.parts ?? 0 }));
}

/**
 * Every phone of somebody known: the scheme of its first person, and the block of its first plot by number. Plots of this season
 * come before those that were given up.
 */
export async function phonePlaces(db: Executor): Promise<ReadonlyMap<string, PhonePlace>> {
  const people = await db
    .selectFrom('phone_people')
    .innerJoin('people', 'people.id', 'phone_people.person_id')
    .select(['phone_people.phone', 'people.scheme_id'])
    .orderBy('people.id')
    .execute();
  const blocks = await firstBlocks(db);
  const places = new Map<string, PhonePlace>();
  for (const { phone, scheme_id: schemeId } of people)
    if (!places.has(phone)) places.set(phone, { schemeId, blockId: blocks.get(phone) ?? null });
  return places;
}

async function firstBlocks(db: Executor): Promise<ReadonlyMap<string, string>> {
  const plots = await db
    .selectFrom('phone_people')
    .innerJoin('plots', 'plots.owner_id', 'phone_people.person_id')
    .innerJoin('seasons', 'seasons.plot_id', 'plots.id')
    .select(['phone_people.phone', 'plots.id', 'plots.number', 'plots.block_id', 'seasons.open'])
    .execute();
  const first = new Map<string, (typeof plots)[number]>();
  for (const plot of plots) {
    const known = first.get(plot.phone);
    if (!known || comesBefore(plot, known)) first.set(plot.phone, plot);
  }
  return new Map([...first].map(([phone, plot]) => [phone, plot.block_id]));
}

interface Ranked {
  readonly id: string;
  readonly number: string;
  readonly open: number;
}

function comesBefore(a: Ranked, b: Ranked): boolean {
  const order = b.open - a.open || byNumber(a.number, b.number);
  return order === 0 ? a.id < b.id : order < 0;
}
