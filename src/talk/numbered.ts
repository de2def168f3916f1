/** A question that is answered by a number: its options in words and what each leads to. */
import type { Message } from '../say/message.ts';
import type { Outcome } from './state.ts';
import type { Part } from './turn.ts';

/** Options that one text can hold. */
const MOST_OPTIONS = 5;

export interface Option {
  readonly what: Message;
  readonly leads: Outcome;
}

/** "Head? 1 This. 2 That. Send 1 or 2." */
export function numbered(head: readonly Message[], options: readonly Option[], most = MOST_OPTIONS): Part {
  const shown = options.slice(0, most);
  const lines = shown.map(
    ({ what }, index): Message => ({ key: 'choice.one', values: { number: index + 1, what } }),
  );
  const send: Message[] = [];
  if (shown.length === 2) send.push({ key: 'choice.send-two' });
  if (shown.length > 2) send.push({ key: 'choice.send-many', values: { count: shown.length } });
  return {
    say: [...head, ...lines, ...send],
    standing: { at: 'choose', options: shown.map(({ leads }) => leads) },
  };
}

/** An option that changes nothing and says so. */
export function leave(what: string): Option {
  return { what: { key: what }, leads: { do: 'say', key: 'choice.nothing-noted', values: {} } };
}
