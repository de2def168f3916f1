/** The port to whoever carries texts to phones. A carrier knows nothing of growers, plots or the outbox. */

/** One text to hand over. */
export interface TextOut {
  /** In E.164 form. */
  readonly to: string;
  readonly text: string;
  /** Idempotency key: the same text tried again has the same key. */
  readonly key: string;
  /** 1 on the first try; from 2 on, a carrier whose last answer was `unknown` looks the key up before it sends. */
  readonly attempt: number;
}

/** How a hand-over ended; `why` is a short reason for the log, without the number. */
export type Handing =
  | { readonly kind: 'handed'; readonly carrierId: string }
  /** Surely not taken: try again, no sooner than `afterMs` when given. */
  | { readonly kind: 'retry'; readonly why: string; readonly afterMs?: number }
  /** Surely not taken, and never will be. */
  | { readonly kind: 'failed'; readonly why: string }
  /** No answer, or one that says nothing: it may have been taken. */
  | { readonly kind: 'unknown'; readonly why: string };

export interface Carrier {
  readonly name: string;
  /** True when no real phone is ever texted: only then may the clock be simulated. */
  readonly simulated: boolean;
  /** Hands one text over; never rejects for a reason that has a kind. */
  send(text: TextOut): Promise<Handing>;
}
