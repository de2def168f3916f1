/** Turns what is to be said into one text in one language, short enough for its budget where sparing sentences allows it. */

import type { Catalogue } from './catalogue.ts';
import { SayError } from './fault.ts';
import type { Saying } from './message.ts';
import { messageText } from './message-text.ts';
import { measure, type Size } from './parts.ts';

/** A text as it will be sent. */
export interface Said extends Size {
  readonly text: string;
}

/** Parts that a reply may take when nothing else is asked for. */
const REPLY_PARTS = 2;

/**
 * Says it: sentences joined by one space, spare ones dropped last first until the text fits `budgetParts` (a UCS-2 language may
 * take one part more). When even the others do not fit, nothing of them is cut: the text keeps their real number of parts, and
 * spare sentences that fit in as many. Throws a SayError on a missing message or value.
 * `say({ sentences: [{ key: 'done', values: { plot: '3', day: { day: 20886 } } }] }, english).text` is "Plot 3 done Wed 10 Mar."
 */
export function say(saying: Saying, catalogue: Catalogue, budgetParts: number = REPLY_PARTS): Said {
  const sentences = saying.sentences.map((sentence) => ({
    text: messageText(sentence, catalogue),
    spare: sentence.spare ?? false,
  }));
  const needed = sentences.filter((sentence) => sentence.spare === false);
  if (needed.length === 0) throw new SayError('empty-saying', catalogue.lang, saying.sentences[0]?.key ?? '');
  const room = budgetParts + (catalogue.calendar.alphabet === 'ucs2' ? 1 : 0);
  let said = sized(sentences);
  if (said.parts <= room) return said;
  const budget = Math.max(room, sized(needed).parts);
  for (const kind of [true, 'last']) {
    for (let i = sentences.length - 1; i >= 0 && said.parts > budget; i -= 1) {
      if (sentences[i]?.spare === kind) sentences.splice(i, 1);
      said = sized(sentences);
    }
  }
  return said;
}

function sized(sentences: readonly { readonly text: string }[]): Said {
  const text = sentences.map((sentence) => sentence.text).join(' ');
  return { text, ...measure(text) };
}
