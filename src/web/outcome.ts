/** What one text comes to before anything is written. */
import type { StoredState } from '../store/talks.ts';
import type { Effect } from '../talk/effect.ts';

/** What one step came to. */
export interface Outcome {
  readonly state: StoredState | null;
  readonly effects: readonly Effect[];
  readonly lang: string | null;
  /** Nothing comes of the text: what was asked stays asked. */
  readonly silent?: true;
}
