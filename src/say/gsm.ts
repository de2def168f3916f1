/** The GSM 7-bit default alphabet and its extension table (3GPP TS 23.038, 6.2.1): what each character costs. */

const BASIC =
  '@£$¥èéùìòÇ\nØø\rÅåΔ_ΦΓΛΩΠΨΣΘΞÆæßÉ' +
  ' !"#¤%&\'()*+,-./0123456789:;<=>?' +
  '¡ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÑÜ§' +
  '¿abcdefghijklmnopqrstuvwxyzäöñüà';

/** Reached through the escape character: two septets each. */
const EXTENSION = '\f^{}\\[~]|€';

const COSTS = costTable();

function costTable(): Uint8Array {
  const table = new Uint8Array(0x20ac + 1);
  for (const char of BASIC) table[char.charCodeAt(0)] = 1;
  for (const char of EXTENSION) table[char.charCodeAt(0)] = 2;
  return table;
}

/** Septets of one UTF-16 code unit: 1, 2 for the extension table, 0 when the alphabet lacks it. `septetsOf('€'.charCodeAt(0))` is 2. */
export function septetsOf(codeUnit: number): number {
  return COSTS[codeUnit] ?? 0;
}

/** Septets of a whole text, or null when one character is outside the alphabet. `gsmSeptets('1 €')` is 4, `gsmSeptets('ê')` null. */
export function gsmSeptets(text: string): number | null {
  let sum = 0;
  for (let i = 0; i < text.length; i += 1) {
    const cost = septetsOf(text.charCodeAt(i));
    if (cost === 0) return null;
    sum += cost;
  }
  return sum;
}

/** All 127 + 10 characters, for checks and tests. */
export const GSM_CHARACTERS: { readonly basic: string; readonly extension: string } = {
  basic: BASIC,
  extension: EXTENSION,
};
