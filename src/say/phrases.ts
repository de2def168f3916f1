/** Finds in a text what its reader is told to send, so that it can be checked against what is heard and against words that carriers keep. */

const CAPITALS = String.raw`[\p{Lu}\p{M}'-]*\p{Lu}[\p{Lu}\p{M}'-]*\p{Lu}[\p{Lu}\p{M}'-]*`;
const FIGURE = String.raw`(?:\p{Lu}-?)?\p{Nd}[\p{Nd}.,%-]*`;
const PHRASE = new RegExp(
  String.raw`"([^"]+)"|(?<![\p{L}\p{Nd}])(${CAPITALS}(?:(?: ${CAPITALS}|,? ${FIGURE})(?![\p{L}\p{Nd}]))*)(?![\p{L}\p{Nd}])`,
  'gu',
);

/** Words that carriers answer or act on themselves on many routes: never to be asked for. */
const KEPT = new Set(
  'STOP STOPALL UNSUBSCRIBE CANCEL END QUIT REVOKE OPTOUT START YES UNSTOP HELP INFO ARRET STOPPER DESABONNER'.split(
    ' ',
  ),
);

/**
 * The phrases after a send word up to the end of its sentence: in capitals, with the figures that follow, or in quotes (for scripts
 * without capitals). `phrasesIn('Send PLOUGHED 3 or NEXT.', ['send'])` is ["PLOUGHED 3", "NEXT"].
 */
export function phrasesIn(text: string, sendWords: readonly string[]): string[] {
  return sentencesOf(text).flatMap((sentence) => {
    const after = afterSendWord(sentence, sendWords);
    return [...after.matchAll(PHRASE)].map((match) => (match[1] ?? match[2] ?? '').replace(/[.,-]+$/, ''));
  });
}

/** True for a phrase that begins with a word which carriers keep. `isKept('YES')` is true. */
export function isKept(phrase: string): boolean {
  return KEPT.has(phrase.toUpperCase().split(/[^\p{L}]+/u)[0] ?? '');
}

function sentencesOf(text: string): string[] {
  return text.split(/(?<=[.!?।])\s+/u);
}

/** What stands after the first send word; empty when there is none. */
function afterSendWord(sentence: string, sendWords: readonly string[]): string {
  const words = sendWords.map((word) => word.replace(/[^\p{L}\p{M}\p{Nd}]/gu, String.raw`\$&`)).join('|');
  const found = new RegExp(String.raw`(?<![\p{L}\p{M}])(?:${words})(?![\p{L}\p{M}])`, 'iu').exec(sentence);
  return found === null ? '' : sentence.slice(found.index + found[0].length);
}
