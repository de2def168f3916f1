/** Pieces of a broadcast of words: the same text for every phone of a language. */
import { isFewPlots, phonesAfter } from '../store/broadcast-phones.ts';
import { keyPrefix } from '../store/broadcast-texts.ts';
import type { BroadcastHead } from '../talk/broadcast.ts';
import { BROADCAST_PARTS, type NextPiece } from './broadcast-piece.ts';
import type { Line } from './line.ts';
import { newsEndMs } from './quiet-hours.ts';

/** Phones of one piece. */
const PHONES_TOGETHER = 500;

/** Makes the pieces of one broadcast, one after the other; remembers its text in each language. */
export function wordsPieces(line: Line): NextPiece {
  const texts = new Map<string, string>();
  let isFew: boolean | null = null;
  const textIn = (lang: string, head: BroadcastHead): string => {
    const text = texts.get(lang) ?? wordsIn(line, lang, head);
    texts.set(lang, text);
    return text;
  };
  return async (trx, { id, head, nextAfter: after }, { notBeforeMs }) => {
    const prefix = keyPrefix(id);
    isFew ??= await isFewPlots(trx, head.blockIds);
    const to = { blockIds: head.blockIds, keyPrefix: prefix };
    const { phones, nextAfter } = await phonesAfter(trx, to, after, PHONES_TOGETHER, isFew);
    const expiresMs = newsEndMs(notBeforeMs);
    return {
      texts: phones.map(({ phone, lang }) => ({
        id: line.makeId(),
        key: `${prefix}${phone}`,
        phone,
        text: textIn(lang, head),
        notBeforeMs,
        expiresMs,
      })),
      nextAfter,
    };
  };
}

/** Words are nobody's own: no name and no plots are in them. */
function wordsIn(line: Line, lang: string, head: BroadcastHead): string {
  return line.voice(lang).say(line.talk.broadcast(head, { name: '', lang, plots: [] }), BROADCAST_PARTS);
}
