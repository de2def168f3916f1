/** How near two spellings are: slips of the finger, doubled letters, dropped vowels. Knows no meanings. */

/** The slips allowed in a word of so many letters: none up to 3, one up to 6, two from 7. */
export function slipsAllowed(letters: number): number {
  if (letters <= 3) return 0;
  return letters <= 6 ? 1 : 2;
}

/** Letters as bits, to pass over words that cannot be near. */
export function letterBits(word: string): number {
  let bits = 0;
  for (let i = 0; i < word.length; i++) bits |= 1 << (word.charCodeAt(i) & 31);
  return bits;
}

/** True when two words with these bits might be within so many slips. */
export function bitsMayMatch(a: number, b: number, slips: number): boolean {
  let differing = a ^ b;
  let count = 0;
  while (differing !== 0 && count <= 2 * slips) {
    differing &= differing - 1;
    count++;
  }
  return count <= 2 * slips;
}

/**
 * Slips between two words: a letter missed, added, changed, or two swapped (optimal string alignment, the restricted
 * Damerau-Levenshtein distance); `limit + 1` when more than `limit`. `slipsBetween('plto', 'plot', 2)` is 1.
 */
export function slipsBetween(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) > limit) return limit + 1;
  let older: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    let best = i;
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let cost = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        cost = Math.min(cost, older[j - 2]! + 1);
      row.push(cost);
      if (cost < best) best = cost;
    }
    if (best > limit) return limit + 1;
    older = last;
    last = row;
  }
  return Math.min(last[b.length]!, limit + 1);
}

/** Letters once each where they were doubled: `squeeze('ploughhed')` is "ploughed". */
export function squeeze(word: string): string {
  return word.replace(/(.)\1+/gu, '$1');
}

/** As people shorten: no vowels after the first letter. `skeleton('ploughed')` is "plghd". */
export function skeleton(word: string): string {
  return squeeze(word.slice(0, 1) + word.slice(1).replace(/[aeiou]/g, ''));
}

/** A word with letters that stand for each other made the same, in turn: ("chash", sh as s) is "chas". */
export function alikeKey(word: string, alike: readonly (readonly [string, string])[]): string {
  return alike.reduce((text, [from, to]) => text.replaceAll(from, to), word);
}
