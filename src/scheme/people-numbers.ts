/** The numbers of a file's new plots: unique on every phone of their grower, as given or the next that is free. */
import type { FileMistake } from './file-mistake.ts';
import { freeNumber } from './free-number.ts';
import { growerKey, type KnownGrower, type KnownPeople } from './people-known.ts';
import type { ReadRow } from './people-row.ts';
import { bareLabel } from './plot-label.ts';

/** Who has a number: the line of a row, or null for a plot that was there before. */
type Holders = Map<string, number | null>;

/** Gives every row a number; a given one that is another plot's is a mistake. Rows without a phone get none. */
export function numberRows(
  rows: readonly ReadRow[],
  known: KnownPeople,
  growers: ReadonlyMap<string, KnownGrower>,
): { readonly of: ReadonlyMap<ReadRow, string>; readonly mistakes: readonly FileMistake[] } {
  const of = new Map<ReadRow, string>();
  const mistakes: FileMistake[] = [];
  const holders = holdersByPhone(known);
  const holdersOf = (row: ReadRow): readonly Holders[] => {
    if (row.phone === null) return [];
    const grower = row.name === null ? undefined : growers.get(growerKey(row.phone, row.name));
    return (grower?.phones ?? [row.phone]).map((phone) => holdersOn(holders, phone));
  };
  const give = (row: ReadRow, number: string, on: readonly Holders[]) => {
    of.set(row, number);
    for (const phone of on) phone.set(number, row.line);
  };
  // Given numbers first: what is free for the others is known only then.
  for (const row of rows) {
    if (row.number === null) continue;
    const on = holdersOf(row);
    const taken = on.find((phone) => phone.has(row.number ?? ''))?.get(row.number);
    if (taken === undefined) give(row, row.number, on);
    // A row without a label that has other mistakes may be that very plot.
    else if (taken !== null || row.text.plot !== '' || row.mistakes.length === 0)
      mistakes.push({ line: row.line, column: 'number', written: row.text.number, what: why(taken) });
  }
  for (const row of rows) {
    const on = holdersOf(row);
    if (row.text.number === '' && on.length > 0)
      give(row, freeNumber(null, new Set(on.flatMap((phone) => [...phone.keys()]))), on);
  }
  return { of, mistakes };
}

const why = (line: number | null) =>
  line === null
    ? 'is the number of another plot on this phone'
    : `is on line ${line} too, for the same phone`;

function holdersByPhone({ plots, phonesOf }: KnownPeople): Map<string, Holders> {
  const holders = new Map<string, Holders>();
  for (const { ownerId, number } of plots)
    for (const phone of phonesOf.get(ownerId) ?? []) holdersOn(holders, phone).set(bareLabel(number), null);
  return holders;
}

function holdersOn(holders: Map<string, Holders>, phone: string): Holders {
  const on = holders.get(phone) ?? new Map<string, number | null>();
  holders.set(phone, on);
  return on;
}
