/** Finds one of the line's messages in a text that the line has sent: how a simulated grower reads, in any language. */
import type { Catalogue } from '../say/catalogue.ts';

/** The values that stand in the message's places; null when the text does not hold it. `{ plot: '3' }` of "… Text NEXT 3 to choose." */
export function readMessage(
  key: string,
  text: string,
  catalogue: Catalogue,
): Readonly<Record<string, string>> | null {
  const { texts, names } = catalogue.template(key);
  const found = new RegExp(texts.map(literally).join('(.+?)')).exec(text);
  return found && Object.fromEntries(names.map((name, index) => [name, found[index + 1] ?? '']));
}

const literally = (text: string) => text.replace(/[\\^$.*+?()[\]{}|/]/g, '\\$&');
