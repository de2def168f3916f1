/** The road that a played season's texts take: to the line, and from its outbox to the phones. The desk's is the shortest. */
import type { Carrier } from '../carriers/carrier.ts';
import { deskCarrier } from '../carriers/desk.ts';
import type { SettableClock } from '../clock.ts';
import type { Line } from '../sweeps/line.ts';
import { sweepOutbox } from '../sweeps/sweep-outbox.ts';
import { takeText } from '../web/take-text.ts';
import type { TextIn } from '../web/text-in.ts';

/** A grower's text, and the id that its carrier gave it. */
export type Brought = Pick<TextIn, 'carrierId' | 'from' | 'text'>;

/** Texts of one line on their way. */
export interface Texting {
  /** Brings a text to the line; resolves to the answer as its phone shows it, null when there is none. */
  bring(text: Brought): Promise<string | null>;
  /** Sends what may be sent; may move the clock on until nothing waits any more. */
  sendAll(clock: SettableClock): Promise<void>;
  /** Lets all arrive that is still under way. */
  end(): Promise<void>;
}

export interface Road {
  /** What the line is opened with. */
  readonly carrier: Carrier;
  open(line: Line): Promise<Texting>;
  close(): Promise<void>;
}

/** Straight into the line, and out of it at once. */
export const deskRoad: Road = {
  carrier: deskCarrier(),
  open: async (line) => ({
    bring: (text) => takeText(line, text),
    sendAll: async () => {
      await sweepOutbox(line);
    },
    end: async () => {},
  }),
  close: async () => {},
};
