/** What happens to a conversation: a text has come in. Prepared by `hear`, so that `step` needs no word list. */
import type { Details } from '../hear/details.ts';
import type { Heard } from '../hear/reading.ts';

export interface TextEvent {
  readonly kind: 'text';
  /** Id of this inbound text: what one UNDO takes back. */
  readonly batch: string;
  readonly text: string;
  /** The language that it was read in. */
  readonly lang: string;
  readonly heard: Heard;
  /** The same text read as an answer to a question for figures (joining). */
  readonly details: Details;
}
