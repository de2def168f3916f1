/** Reads one row of a file of people by itself: what each of its fields says, and every mistake in them. */
import { USUAL_WAY, type Way } from '../agronomy/season.ts';
import type { FileMistake } from './file-mistake.ts';
import type { PeopleColumn, PeopleRow } from './people-columns.ts';
import {
  areaOf,
  blockOf,
  labelOf,
  languageOf,
  nameOf,
  numberOf,
  phoneOf,
  placeOf,
  type Reading,
  type ReadPhone,
  unitOf,
  varietyOf,
  WAY_COLUMNS,
  wayOf,
} from './people-fields.ts';
import type { KnownBlock, KnownPeople } from './people-known.ts';

/** A row as read. What is null was left open, or stands among the mistakes. */
export interface ReadRow {
  readonly line: number;
  readonly text: PeopleRow['text'];
  readonly name: string | null;
  readonly phone: string | null;
  readonly lang: string | null;
  readonly block: KnownBlock | null;
  readonly areaHa: number | null;
  readonly label: string | null;
  readonly number: string | null;
  readonly place: number | null;
  readonly varietyDays: number;
  readonly way: Way;
  readonly mistakes: readonly FileMistake[];
}

/** A row with all that makes a plot. */
export type WholeRow = ReadRow & {
  readonly name: string;
  readonly phone: string;
  readonly lang: string;
  readonly block: KnownBlock;
  readonly areaHa: number;
};

/** True for a row without mistakes. */
export const isWhole = (row: ReadRow): row is WholeRow => row.mistakes.length === 0;

/** Reads the row. */
export function readRow({ line, text }: PeopleRow, known: KnownPeople, readPhone: ReadPhone): ReadRow {
  const mistakes: FileMistake[] = [];
  const read = <T>(column: PeopleColumn, how: (written: string) => Reading<T>): T | null => {
    const reading = how(text[column]);
    if ('is' in reading) return reading.is;
    mistakes.push({ line, column, written: text[column], what: reading.not });
    return null;
  };
  const name = read('name', nameOf);
  const phone = read('phone', (written) => phoneOf(written, readPhone));
  const lang = read('language', (written) => languageOf(written, known.languages));
  const block = read('block', (written) => blockOf(written, known.blocks));
  const label = read('plot', labelOf);
  const number = read('number', numberOf);
  const haInUnit = read('unit', (written) => unitOf(written, known));
  const areaHa = read('area', (written) => areaOf(written, haInUnit));
  const varietyDays = read('variety_days', (written) => varietyOf(written, known.varietyDays));
  const way = WAY_COLUMNS.map((column) => [column, read(column, (written) => wayOf(column, written, block))]);
  const place = read('place', placeOf);
  return {
    ...{ line, text, name, phone, lang, block, areaHa, label, number, place, mistakes },
    varietyDays: varietyDays ?? known.varietyDays,
    way: { ...USUAL_WAY, ...block?.way, ...(Object.fromEntries(way) as Partial<Way>) },
  };
}
