/** The columns of a file of people: which there are, and where they stand in a file. */
import type { FileMistake } from './file-mistake.ts';

/** Columns that must be there; their fields may be empty where the column's own check says so. */
export const NEEDED_COLUMNS = ['name', 'phone', 'language', 'block', 'plot', 'area'] as const;
/** Columns that a file may leave out. */
export const OTHER_COLUMNS = [
  'number',
  'unit',
  'variety_days',
  'tillage',
  'establishment',
  'nursery',
  'water',
  'place',
] as const;

export type PeopleColumn = (typeof NEEDED_COLUMNS)[number] | (typeof OTHER_COLUMNS)[number];

/** A file as rows of text, read from whatever form it has. */
export interface PeopleSheet {
  readonly header: { readonly line: number; readonly fields: readonly string[] };
  /** Rows with the line on which each begins. */
  readonly rows: readonly { readonly line: number; readonly fields: readonly string[] }[];
  /** Where the file could not be read as rows. */
  readonly broken: readonly FileMistake[];
}

/** One row by its columns, spaces around each text taken off. */
export interface PeopleRow {
  readonly line: number;
  readonly text: Readonly<Record<PeopleColumn, string>>;
}

const COLUMNS: readonly string[] = [...NEEDED_COLUMNS, ...OTHER_COLUMNS];

/** The rows by their columns; columns that are unknown, missing or there twice, and rows of another length, are mistakes. */
export function rowsOfSheet({ header, rows }: PeopleSheet): {
  readonly rows: readonly PeopleRow[];
  readonly mistakes: readonly FileMistake[];
} {
  const names = header.fields.map((field) => tidy(field).toLowerCase());
  const mistakes = headerMistakes(header, names);
  // Under columns that are not clear no row is: only lengths and the header would be told, over and over.
  if (mistakes.length > 0) return { rows: [], mistakes };
  const filled = rows.filter(({ fields }) => fields.some((field) => tidy(field) !== ''));
  const even = filled.filter(({ fields }) => fields.length === names.length);
  const uneven = filled.filter(({ fields }) => fields.length !== names.length);
  return {
    rows: even.map(({ line, fields }) => ({ line, text: textOf(names, fields) })),
    mistakes: uneven.map(({ line, fields }) => ({
      line,
      column: '',
      written: '',
      what: `has ${fields.length} fields where the header has ${names.length}`,
    })),
  };
}

function headerMistakes({ line, fields }: PeopleSheet['header'], names: readonly string[]): FileMistake[] {
  const missing = NEEDED_COLUMNS.filter((name) => !names.includes(name));
  return [
    ...names.flatMap((name, index) => {
      const at = { line, column: name, written: tidy(fields[index] ?? '') };
      if (!COLUMNS.includes(name)) return [{ ...at, column: '', what: unknown(at.written) }];
      return names.indexOf(name) < index ? [{ ...at, what: 'is there twice' }] : [];
    }),
    ...missing.map((column) => ({ line, column, written: '', what: 'the column is missing' })),
  ];
}

const unknown = (written: string) =>
  written === '' ? 'a column has no name' : `is no column that is known (${COLUMNS.join(', ')})`;

function textOf(names: readonly string[], fields: readonly string[]): PeopleRow['text'] {
  const texts = COLUMNS.map((column) => [column, tidy(fields[names.indexOf(column)] ?? '')]);
  return Object.fromEntries(texts) as PeopleRow['text'];
}

/** Without spaces around, line breaks within, or the apostrophe that keeps a spreadsheet from reckoning. */
const tidy = (field: string) =>
  field
    .replace(/\s+/g, ' ')
    .trim()
    .replace(/^'(?=[=+@-])/, '');
