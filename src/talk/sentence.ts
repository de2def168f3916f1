/** One sentence of an answer. */
import type { Message } from '../say/message.ts';

/** A spare one may be left out when the text is too long; a `last` one after all the others. */
export type Sentence = Message & { readonly spare?: boolean | 'last' };
