/** Reads a file of comma-separated values (RFC 4180) as rows of text, each with the line on which it begins. */
import { CsvError, parse } from 'csv-parse/sync';
import type { FileMistake } from '../scheme/file-mistake.ts';
import type { PeopleSheet } from '../scheme/people-columns.ts';

const SEPARATORS = [',', ';', '\t'];

type Row = PeopleSheet['rows'][number];

/**
 * The rows of UTF-8 bytes, with or without a byte order mark; the separator is the one that the header line has most of.
 * Never throws: where the bytes are no text, or quotes are left open, that is among `broken`, with the rows before it.
 */
export function readSheet(bytes: Uint8Array): PeopleSheet {
  const notText = lineOfNoText(bytes);
  // Line breaks within quotes would be counted by the kind that the first line ends with.
  const text = new TextDecoder('utf-8').decode(bytes).replace(/\r\n?/g, '\n');
  const { rows, broken } = readRows(text);
  const [header = { line: 1, fields: [] }, ...rest] = rows;
  return { header, rows: rest, broken: notText === null ? broken : [notText, ...broken] };
}

function readRows(text: string): { rows: readonly Row[]; broken: readonly FileMistake[] } {
  const rows: Row[] = [];
  try {
    parse(text, {
      delimiter: separatorOf(text),
      record_delimiter: '\n',
      relax_column_count: true,
      skip_empty_lines: true,
      on_record: (fields: readonly string[], { lines }) => {
        rows.push({ line: lines - breaksIn(fields), fields });
        return null;
      },
    });
    return { rows, broken: [] };
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    return { rows, broken: [brokenAt(error, rows, text)] };
  }
}

const breaksIn = (fields: readonly string[]) => fields.join('').split('\n').length - 1;

function separatorOf(text: string): string {
  const header = text.split('\n').find((line) => line.trim() !== '') ?? '';
  const bare = header.replace(/"[^"]*"/g, '');
  const count = (separator: string) => bare.split(separator).length;
  return SEPARATORS.reduce((most, one) => (count(one) > count(most) ? one : most));
}

/** The row that is broken begins after the last that could be read, and after empty lines. */
function brokenAt(error: CsvError, rows: readonly Row[], text: string): FileMistake {
  const last = rows.at(-1);
  const lines = text.split('\n');
  let line = last ? last.line + breaksIn(last.fields) + 1 : 1;
  while (line < lines.length && lines[line - 1] === '') line += 1;
  const open = error.code === 'CSV_QUOTE_NOT_CLOSED';
  const what = open
    ? 'a quotation mark is opened here and never closed; what follows was not read'
    : 'a quotation mark stands where none can; what follows was not read';
  return { line, column: '', written: '', what };
}

/** The first line that is no UTF-8; null when all are. */
function lineOfNoText(bytes: Uint8Array): FileMistake | null {
  const strict = new TextDecoder('utf-8', { fatal: true });
  const isText = (part: Uint8Array) => {
    try {
      return strict.decode(part) !== null;
    } catch {
      return false;
    }
  };
  if (isText(bytes)) return null;
  let [line, start] = [1, 0];
  for (let end = bytes.indexOf(0x0a); end >= 0 && isText(bytes.subarray(start, end)); line += 1) {
    start = end + 1;
    end = bytes.indexOf(0x0a, start);
  }
  return { line, column: '', written: '', what: 'is not in UTF-8: save the file with that encoding' };
}
