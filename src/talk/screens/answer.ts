/** What the conversation answered to an entry, as the next screen. */
import type { TalkState } from '../state.ts';
import type { Screen } from './screen.ts';

/** The answer's pages; numbers are offered in it when it ends in a numbered question. */
export function answerScreen(text: string, state: TalkState | null): Screen {
  const picks = state?.standing.at === 'choose' ? state.standing.options.length : 0;
  return { at: 'answer', text, page: 0, picks };
}
