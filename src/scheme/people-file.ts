/**
 * A file of people against what a scheme knows: all the changes that it asks for, or all the mistakes in it. One row is
 * one plot; rows of one name on one phone are one grower. What is there already, as the row has it, is left alone.
 */
import type { FileMistake } from './file-mistake.ts';
import type { PeopleChange } from './people-change.ts';
import { type PeopleSheet, rowsOfSheet } from './people-columns.ts';
import type { ReadPhone } from './people-fields.ts';
import { growerKey, type KnownGrower, type KnownPeople } from './people-known.ts';
import { makeLabels } from './people-labels.ts';
import { matchRows } from './people-match.ts';
import { numberRows } from './people-numbers.ts';
import { isWhole, type ReadRow, readRow, type WholeRow } from './people-row.ts';

/** A plot that is to be added, and on which phone. */
export interface AddedPlot {
  readonly phone: string;
  readonly blockId: string;
  readonly areaHa: number;
}

export type PeopleReading =
  | {
      readonly ok: true;
      /** One for each new plot, in the order of the file: that is the order along the canal. */
      readonly changes: readonly PeopleChange[];
      readonly added: readonly AddedPlot[];
      readonly newGrowers: number;
      /** Rows whose plot is there already. */
      readonly knownPlots: number;
    }
  | { readonly ok: false; readonly mistakes: readonly FileMistake[] };

/** Checks the whole file; mistakes come in the order of its lines. */
export function readPeopleFile(sheet: PeopleSheet, known: KnownPeople, readPhone: ReadPhone): PeopleReading {
  const inColumns = rowsOfSheet(sheet);
  const rows = inColumns.rows.map((row) => readRow(row, known, readPhone));
  const growers = growersByKey(known);
  const match = matchRows(rows, known, growers);
  const fresh = rows.filter((row) => !match.known.has(row) && !match.otherwise.has(row));
  const numbers = numberRows(fresh, known, growers);
  const labels = makeLabels(fresh, rows, known);
  const mistakes = [
    ...sheet.broken,
    ...inColumns.mistakes,
    ...rows.flatMap((row) => row.mistakes),
    ...languageMistakes(rows),
    ...match.mistakes,
    ...numbers.mistakes,
    ...labels.mistakes,
  ];
  if (mistakes.length > 0) return { ok: false, mistakes: mistakes.toSorted((a, b) => a.line - b.line) };
  const toAdd = fresh.filter(isWhole);
  const newKeys = toAdd.map((row) => growerKey(row.phone, row.name)).filter((key) => !growers.has(key));
  return {
    ok: true,
    changes: toAdd.map((row) => changeOf(row, growers, labels.of.get(row) ?? '', numbers.of.get(row) ?? '')),
    added: toAdd.map(({ phone, block, areaHa }) => ({ phone, blockId: block.id, areaHa })),
    newGrowers: new Set(newKeys).size,
    knownPlots: match.known.size,
  };
}

function growersByKey({ growers }: KnownPeople): ReadonlyMap<string, KnownGrower> {
  return new Map(
    growers.flatMap((grower) =>
      grower.phones.map((phone) => [growerKey(phone, grower.name), grower] as const),
    ),
  );
}

function changeOf(
  row: WholeRow,
  growers: ReadonlyMap<string, KnownGrower>,
  label: string,
  number: string,
): PeopleChange {
  const { name, lang, phone, block, areaHa, way, varietyDays, place } = row;
  const plot = { number, label, blockId: block.id, areaHa, way, varietyDays, place };
  const grower = growers.get(growerKey(phone, name));
  return grower
    ? { kind: 'add-plot', growerId: grower.id, plot }
    : { kind: 'add-grower', name, lang, phone, plots: [plot] };
}

/** A grower is texted in one language. */
function languageMistakes(rows: readonly ReadRow[]): readonly FileMistake[] {
  const first = new Map<string, ReadRow>();
  return rows.flatMap((row): readonly FileMistake[] => {
    if (row.name === null || row.phone === null || row.lang === null) return [];
    const key = growerKey(row.phone, row.name);
    const before = first.get(key);
    if (!before) first.set(key, row);
    if (!before || before.lang === row.lang) return [];
    const what = `is not the language of this grower on line ${before.line}: ${before.lang}`;
    return [{ line: row.line, column: 'language', written: row.text.language, what }];
  });
}
