/** Text to octets and back, in the character sets that gateways speak. Knows nothing of GSM-7: gateways pack that themselves. */

/** What texts go out in. */
export const OUT_CHARSETS = ['UTF-8', 'ISO-8859-1', 'UTF-16BE'] as const;
export type OutCharset = (typeof OUT_CHARSETS)[number];

/**
 * Names of two octets a character without a mark of their order. SMS has the high octet first (3GPP TS 23.038, 4: UCS2);
 * the web's decoder would read "utf-16" with the low one first (WHATWG Encoding Standard, 4.2).
 */
const WIDE = new Set([
  'utf-16be',
  'utf-16',
  'utf16',
  'utf16be',
  'ucs-2',
  'ucs2',
  'ucs-2be',
  'iso-10646-ucs-2',
]);

/** Western names: the web reads them all as Windows-1252 (WHATWG Encoding Standard, 4.2). */
const WESTERN = new Set([
  'windows-1252',
  'cp1252',
  'iso-8859-1',
  'iso8859-1',
  'latin1',
  'latin-1',
  'us-ascii',
  'ascii',
]);
/** Where Windows-1252 differs from Latin-1: octets 80 to 9F (WHATWG index). Some versions of Node read them as Latin-1. */
const WESTERN_80_TO_9F = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ';

/** The octets of a text; null when the charset lacks one of its characters. `octetsOf('é', 'ISO-8859-1')` is one octet, E9. */
export function octetsOf(text: string, charset: OutCharset): Buffer | null {
  switch (charset) {
    case 'UTF-8':
      return Buffer.from(text, 'utf8');
    case 'UTF-16BE':
      return Buffer.from(text, 'utf16le').swap16();
    case 'ISO-8859-1':
      return /[^\p{ASCII}\u0080-\u00ff]/u.test(text) ? null : Buffer.from(text, 'latin1');
  }
}

/**
 * The text of octets in a named charset. A name that nobody knows, and octets that are no UTF-8 though they should be, are
 * read as UTF-8 where they are that, else as Windows-1252, which has a letter for almost every octet.
 */
export function textOfOctets(octets: Uint8Array, charset: string): string {
  const name = charset.trim().toLowerCase();
  if (WIDE.has(name)) return wideText(octets);
  if (WESTERN.has(name)) return westernText(octets);
  return decoded(octets, name, name === 'utf-8' || name === 'utf8') ?? eitherText(octets);
}

/** A mark of order at the beginning is believed. */
function wideText(octets: Uint8Array): string {
  const lowFirst = octets[0] === 0xff && octets[1] === 0xfe;
  return new TextDecoder(lowFirst ? 'utf-16le' : 'utf-16be').decode(octets);
}

function eitherText(octets: Uint8Array): string {
  return decoded(octets, 'utf-8', true) ?? westernText(octets);
}

function westernText(octets: Uint8Array): string {
  const letter = (char: string) => WESTERN_80_TO_9F[char.charCodeAt(0) - 0x80] ?? char;
  return Buffer.from(octets)
    .toString('latin1')
    .replace(/[\u0080-\u009f]/g, letter);
}

/** Null when the name is not known, or the octets do not belong to it. */
function decoded(octets: Uint8Array, name: string, fatal: boolean): string | null {
  try {
    return new TextDecoder(name, { fatal }).decode(octets);
  } catch {
    return null;
  }
}
