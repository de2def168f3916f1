/** Brings a grower's text over the webhook; by lot the carrier brings it twice, or is cut off and brings it again. */
import type { Brought } from '../road.ts';
import type { Lot } from './lot.ts';
import { postText, type Reached } from './post-text.ts';

/** The name of a misdeed, and the answers to all the times that the text was brought and its answer read. */
export interface Bringing {
  readonly misdeed: string | null;
  readonly answers: readonly (string | null)[];
}

type Manner = (reached: Reached, text: Brought) => Promise<readonly (string | null)[]>;

/** With the share of texts that are brought so. */
const MANNERS: readonly { readonly name: string; readonly share: number; readonly bring: Manner }[] = [
  {
    name: 'a text in brought twice',
    share: 0.06,
    bring: async (reached, text) => [await postText(reached, text), await postText(reached, text)],
  },
  {
    name: 'a text in brought twice at once',
    share: 0.06,
    bring: (reached, text) => Promise.all([postText(reached, text), postText(reached, text)]),
  },
  {
    name: 'a text in cut off once sent, brought again',
    share: 0.06,
    bring: async (reached, text) => {
      await postText(reached, text, 'when-sent');
      return [await postText(reached, text)];
    },
  },
  {
    name: 'a text in cut off at its answer, brought again',
    share: 0.06,
    bring: async (reached, text) => {
      await postText(reached, text, 'when-answered');
      return [await postText(reached, text)];
    },
  },
];

/** Brings it; every text is read and answered at least once. */
export async function bringText(lot: Lot, reached: Reached, text: Brought): Promise<Bringing> {
  let drawn = lot(`text in ${text.carrierId}`);
  for (const { name, share, bring } of MANNERS) {
    if (drawn < share) return { misdeed: name, answers: await bring(reached, text) };
    drawn -= share;
  }
  return { misdeed: null, answers: [await postText(reached, text)] };
}
