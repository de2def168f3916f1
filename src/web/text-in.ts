/** A text that came in, checked, whichever way it came. */
export interface TextIn {
  /** The carrier's id of this delivery's message: the same id is the same text. */
  readonly carrierId: string;
  /** In E.164 form. */
  readonly from: string;
  readonly text: string;
  /** Parts as the carrier counted them. */
  readonly carrierParts?: number | null;
  /** The carrier's mark of this delivery with the sender: a request that comes again has the same, whatever its id. */
  readonly deliveryToken?: string | null;
  /** It came with pictures or sound: only its words are heard. */
  readonly hasMedia?: boolean;
  /** When it was sent, of a text that no webhook brought: it is walked as of then, and its answer goes by the outbox. */
  readonly sentMs?: number;
  /** What the carrier has done and answered itself; nothing is said to it. */
  readonly optOut?: 'stop' | 'start' | 'help';
}
