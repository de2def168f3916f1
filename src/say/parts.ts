/** How long a text is on the air and where a phone network cuts it (3GPP TS 23.038 and 23.040, 8-bit reference). Knows no language. */
import { gsmSeptets, septetsOf } from './gsm.ts';

export type Encoding = 'GSM-7' | 'UCS-2';

/** The size of a text: septets for GSM-7, 16-bit units for UCS-2, and the parts it is sent in. */
export interface Size {
  readonly encoding: Encoding;
  readonly units: number;
  readonly parts: number;
}

/** Units in a text of one part, and in each part of a longer one (the rest is the joining header). */
const ROOM: Readonly<Record<Encoding, { readonly alone: number; readonly joined: number }>> = {
  'GSM-7': { alone: 160, joined: 153 },
  'UCS-2': { alone: 70, joined: 67 },
};

/** Encoding, units and parts of a text; an empty text is one part of nothing. `measure('a'.repeat(161)).parts` is 2. */
export function measure(text: string): Size {
  const septets = gsmSeptets(text);
  const encoding = septets === null ? 'UCS-2' : 'GSM-7';
  const units = septets ?? text.length;
  const parts = units <= ROOM[encoding].alone ? 1 : cuts(text, encoding).length;
  return { encoding, units, parts };
}

/** The parts as sent; joined they are the text again, and no escape pair or surrogate pair is cut. `splitParts('hi')` is ["hi"]. */
export function splitParts(text: string): string[] {
  const { encoding, units } = measure(text);
  if (units <= ROOM[encoding].alone) return [text];
  let from = 0;
  return cuts(text, encoding).map((to) => {
    const part = text.slice(from, to);
    from = to;
    return part;
  });
}

/** Where each part ends, filling every part before the next is begun. */
function cuts(text: string, encoding: Encoding): number[] {
  const room = ROOM[encoding].joined;
  const ends: number[] = [];
  let used = 0;
  for (let i = 0; i < text.length; ) {
    const step = encoding === 'UCS-2' ? pairLength(text, i) : 1;
    const cost = encoding === 'UCS-2' ? step : septetsOf(text.charCodeAt(i));
    if (used + cost > room) {
      ends.push(i);
      used = 0;
    }
    used += cost;
    i += step;
  }
  ends.push(text.length);
  return ends;
}

/** 2 where a surrogate pair begins, else 1. */
function pairLength(text: string, at: number): number {
  return (text.codePointAt(at) ?? 0) > 0xffff ? 2 : 1;
}
