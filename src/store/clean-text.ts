/** Text that every database and every carrier can hold. */

/** Lone halves of a surrogate pair: no UTF-8 has them, and PostgreSQL refuses them. */
const LONE_HALVES = /\p{Cs}/gu;

/** The text without what a database cannot keep: lone surrogates and NUL. `cleanText('a\u0000b')` is "ab". */
export function cleanText(text: string): string {
  return text.replaceAll('\0', '').replace(LONE_HALVES, '');
}
