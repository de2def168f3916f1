/** Makes spellings comparable: one kind of digit, of quote and of dash, no case, no Latin accents. Knows no language. */

const PLAIN = /^[\x20-\x7e\n]*$/;
const QUOTES = /[\u2018\u2019\u201a\u201b\u02bc\u00b4`]/g;
const DASHES = /[\u2010-\u2015\u2212]/g;
const LONE_SURROGATE = /[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;
const INVISIBLE = /[\p{Cf}]|\ufe0f/gu;
/** "1½" is one number; "½" by itself is a part. */
const TAILS: Readonly<Record<string, string>> = { '¼': '.25', '½': '.5', '¾': '.75' };
const FRACTIONS = /[\u00bc-\u00be\u2150-\u215e]/gu;
const CONTROL = /[\p{Cc}\u2028\u2029]/gu;

/** Digits come in runs of ten from zero, so a digit's value is its place in its run. */
function digitValue(char: string): string {
  const code = char.codePointAt(0)!;
  let start = code;
  while (start > code - 9 && /\p{Nd}/u.test(String.fromCodePoint(start - 1))) start--;
  return String((code - start) % 10);
}

const DIGITS = new Map<string, string>();

function foldDigit(char: string): string {
  const known = DIGITS.get(char);
  if (known !== undefined) return known;
  const value = digitValue(char);
  DIGITS.set(char, value);
  return value;
}

/** A number with the sign for inches, and a sign that opens what is quoted. */
const INCHES = /(\p{Nd})(?:["\u201d\u2033]|''|in(?![\p{L}\p{M}\d]))/giu;
const OPENS = /(?:^|[\s:(])["\u201c\u201d]\S/u;

/** `5"` as "5 inch", which every word list knows; in a text that quotes something, the sign only closes. */
const withInches = (text: string): string =>
  text.search(INCHES) < 0 || OPENS.test(text) ? text : text.replace(INCHES, '$1 inch ');

/** Keeps words and case, makes the rest uniform: `clean('প্লট ৩ – “ok”')` has "3", "-" and no stray signs. */
export function clean(texted: string): string {
  const text = withInches(texted);
  if (PLAIN.test(text)) return text;
  return text
    .replace(/\r\n?/g, '\n')
    .replace(LONE_SURROGATE, ' ')
    .replace(INVISIBLE, '')
    .replace(CONTROL, (char) => (char === '\n' ? '\n' : ' '))
    .replace(/(?<=\p{Nd})[\u00bc-\u00be]/gu, (tail) => TAILS[tail] ?? tail)
    .replace(FRACTIONS, (part) => ` ${part.normalize('NFKC')} `)
    .normalize('NFKC')
    .replace(QUOTES, "'")
    .replace(DASHES, '-')
    .replace(/\p{Nd}/gu, foldDigit)
    .replace(/\u2044/g, '/')
    .replace(/[\u0964\u0965\u06d4\u3002]/g, '.')
    .replace(/[\u061f\uff1f\u00bf]/g, '?')
    .replace(/[\u060c\u3001]/g, ',');
}

/** One word for comparing: `foldWord('Labouré')` is "laboure". Accents of Latin letters go; signs of other scripts stay. */
export function foldWord(word: string): string {
  const lower = word.toLowerCase();
  if (PLAIN.test(lower)) return lower;
  return lower
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .normalize('NFC');
}
