/** Texts written by people, brought into the GSM 7-bit alphabet: one stray character would more than double what a text costs. */
import { gsmSeptets } from './gsm.ts';
import { PLAIN } from './plain-letters.ts';

/** The text in the alphabet, and each character (once) that had no plain form: letters became "?", pictures were dropped. */
export interface Plain {
  readonly text: string;
  readonly lost: readonly string[];
}

const PLAIN_ASCII = /^[!-Z_a-z]+(?: [!-Z_a-z]+)*$/;
const PICTURE = /^[\p{Extended_Pictographic}\p{So}\p{Sk}\p{Emoji_Modifier}\p{Regional_Indicator}]$/u;
const INVISIBLE = /^[\p{M}\p{Cf}\p{Cc}]$/u;

/** NFC, control characters out, every run of white space one space: safe to put into a sentence. `tidyText(' a\n b ')` is "a b". */
export function tidyText(text: string): string {
  if (PLAIN_ASCII.test(text)) return text;
  return text
    .normalize('NFC')
    .replace(/[\s\u0085]+/gu, ' ')
    .replace(/\p{Cc}/gu, '')
    .replace(/ {2,}/gu, ' ')
    .trim();
}

/** Tidies a text and writes it in GSM-7, a language's own letters (`own`) before the general table. `toGsm('façade – ŋ').text` is "facade - ng". */
export function toGsm(text: string, own: Readonly<Record<string, string>> = {}): Plain {
  const tidy = tidyText(text);
  if (gsmSeptets(tidy) !== null) return { text: tidy, lost: [] };
  const lost = new Set<string>();
  let plain = '';
  for (const char of tidy) {
    const form = plainForm(char, own);
    if (form === null) lost.add(char);
    plain += form ?? (PICTURE.test(char) ? '' : '?');
  }
  return { text: tidyText(plain), lost: [...lost] };
}

/** The character in the alphabet; by table, then without its marks, then by compatibility; null when none works. */
function plainForm(char: string, own: Readonly<Record<string, string>>): string | null {
  if (gsmSeptets(char) !== null) return char;
  const known = lookUp(char, own);
  if (known !== null) return known;
  if (INVISIBLE.test(char)) return '';
  return spelled(char.normalize('NFD'), own) ?? spelled(char.normalize('NFKD'), own);
}

/** Letters spelled one by one with their marks dropped; null when one of them has no plain form. */
function spelled(letters: string, own: Readonly<Record<string, string>>): string | null {
  let text = '';
  for (const letter of letters) {
    if (INVISIBLE.test(letter)) continue;
    const plain = gsmSeptets(letter) === null ? lookUp(letter, own) : letter;
    if (plain === null) return null;
    text += plain;
  }
  return text;
}

function lookUp(char: string, own: Readonly<Record<string, string>>): string | null {
  if (Object.hasOwn(own, char)) return own[char] ?? null;
  return PLAIN.get(char) ?? null;
}
