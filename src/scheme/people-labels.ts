/** Labels for those new plots of a file that have none: the block's first letter and the next free number of the scheme. */
import type { FileMistake } from './file-mistake.ts';
import type { KnownPeople } from './people-known.ts';
import type { ReadRow } from './people-row.ts';
import { bareLabel } from './plot-label.ts';

/** A label has four digits at most. */
const LAST_NUMBER = 9999;
/** For blocks whose names begin with no letter from A to Z. */
const ANY_PLOT = 'P';

/** The labels of the new rows, given or made; `all` are the file's rows, whose labels are not free either. */
export function makeLabels(
  fresh: readonly ReadRow[],
  all: readonly ReadRow[],
  { plots }: KnownPeople,
): { readonly of: ReadonlyMap<ReadRow, string>; readonly mistakes: readonly FileMistake[] } {
  const labels = [...plots, ...all].flatMap(({ label }) => (label === null ? [] : [bareLabel(label)]));
  const taken = new Set(labels);
  const lastOf = new Map<string, number>();
  const of = new Map<ReadRow, string>();
  const mistakes: FileMistake[] = [];
  for (const row of fresh) {
    if (row.label !== null) of.set(row, row.label);
    if (row.text.plot !== '' || row.block === null) continue;
    const letter = firstLetter(row.block.name);
    let number = (lastOf.get(letter) ?? 0) + 1;
    while (taken.has(bareLabel(`${letter}-${number}`))) number += 1;
    lastOf.set(letter, number);
    of.set(row, `${letter}-${number}`);
    if (number > LAST_NUMBER)
      mistakes.push({ line: row.line, column: 'plot', written: '', what: `no label with ${letter} is free` });
  }
  return { of, mistakes };
}

/** "Upper" gives "U", "Étang" gives "E". */
const firstLetter = (name: string) => /^[A-Z]/.exec(name.normalize('NFD').toUpperCase())?.[0] ?? ANY_PLOT;
