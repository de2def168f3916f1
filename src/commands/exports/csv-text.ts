/** Tables as comma-separated values (RFC 4180) that a spreadsheet may open. */
import { stringify } from 'csv-stringify/sync';

/** A field: text, a number, or null for nothing. */
export type Field = string | number | null;

/** The table as text, its header first, every line ended by CRLF. Text that a spreadsheet would reckon is guarded. */
export function csvText(columns: readonly string[], rows: readonly (readonly Field[])[]): string {
  const guarded = rows.map((row) => row.map((field) => (typeof field === 'string' ? guard(field) : field)));
  return stringify([columns, ...guarded], { record_delimiter: '\r\n' });
}

/** `guard('=1+1')` is "'=1+1": what begins like a formula is kept from being one by an apostrophe. */
export const guard = (text: string): string => (/^[=+\-@\t\r]/.test(text) ? `'${text}` : text);
