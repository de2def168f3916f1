/** Names of people as they are compared: a file and a text may write one name in two ways. */

/** "Asha ", "ASHA" and "asha" are one name. */
export function bareName(name: string): string {
  return name.normalize('NFC').trim().replace(/\s+/g, ' ').toLowerCase();
}
