/** The port to whoever carries texts to phones. A carrier knows nothing of growers, plots or the outbox. */

/** One text to hand over. */
export interface TextOut {
  /** In E.164 form. */
  readonly to: string;
  readonly text: string;
  /** Our own id of it, which a carrier may give back with its receipts. */
  readonly id: string;
  /** Idempotency key: the same text tried again has the same key. */
  readonly key: string;
  /** 1 on the first try. */
  readonly attempt: number;
  /** It may have been taken at an earlier try whose end is not known: a carrier that can looks it up before it sends. */
  readonly doubtful: boolean;
  /** When it was queued, in milliseconds since the epoch: nothing of it can be older at the carrier. */
  readonly queuedMs: number;
  /** For how long it is worth something from now on. */
  readonly validForMs: number;
}

/** What a carrier tells of a text that it took. */
export interface Taken {
  readonly carrierId: string;
  /** Parts as the carrier counts them; null when it does not say. */
  readonly parts?: number | null;
}

/** How a hand-over ended; `why` is a short reason for the log, without the number. */
export type Handing =
  | ({ readonly kind: 'handed' } & Taken)
  /** Surely not taken: try again, no sooner than `afterMs` when given. `alarm` when somebody must mend the settings. */
  | { readonly kind: 'retry'; readonly why: string; readonly afterMs?: number; readonly alarm?: true }
  /** Surely not taken, and never will be; `number` tells what is wrong with the number itself. */
  | { readonly kind: 'failed'; readonly why: string; readonly number?: 'opted-out' | 'gone' }
  /** No answer, or one that says nothing: it may have been taken. */
  | { readonly kind: 'unknown'; readonly why: string; readonly afterMs?: number; readonly alarm?: true };

export interface Carrier {
  readonly name: string;
  /** True when no real phone is ever texted: only then may the clock be simulated. */
  readonly simulated: boolean;
  /** Parts that may be handed over in a second; null when there is no limit. */
  readonly partsPerSecond: number | null;
  /** Hands one text over; never rejects for a reason that has a kind. */
  send(text: TextOut): Promise<Handing>;
}
