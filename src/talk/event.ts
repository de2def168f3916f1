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
  /** Of a text that came over the air; absent for what was picked on screens. */
  readonly source?: TextSource;
}

/** What tells whether a person sent it. */
export interface TextSource {
  /** It bears the marks of a text that a handset or a network sends by itself. */
  readonly isAutomatic: boolean;
  /** What the line last said to the phone, answers and other texts. */
  readonly ownTexts: readonly string[];
  /** Pictures or sound without a word. */
  readonly isPicture?: boolean;
}
