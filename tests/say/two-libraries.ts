/** How two packages by other hands cut a text into parts. The first counts grapheme clusters, the second UTF-16 units. */
import { SegmentedMessage } from 'sms-segments-calculator';
import { split } from 'split-sms';
import type { Encoding } from '../../src/say/parts.ts';

export interface Cut {
  readonly encoding: Encoding;
  readonly parts: readonly string[];
}

/** `sms-segments-calculator`; its headers and what they reserve are left out. */
export function cutByClusters(text: string): Cut {
  const { encodingName: encoding, segments } = new SegmentedMessage(text);
  const parts = segments.map((segment) => {
    const chars = Array.from(segment as readonly { readonly raw?: string }[]);
    return chars.map(({ raw }) => raw ?? '').join('');
  });
  return { encoding, parts };
}

/** `split-sms`. */
export function cutByUnits(text: string): Cut {
  const { characterSet, parts } = split(text);
  return {
    encoding: characterSet === 'GSM' ? 'GSM-7' : 'UCS-2',
    parts: parts.map(({ content }) => content),
  };
}
