/** A mistake in a file of rows, at its place. */

export interface FileMistake {
  /** The line of the file, from 1, on which the row begins. */
  readonly line: number;
  /** The column's name; empty where the whole row is meant. */
  readonly column: string;
  /** What stands there; empty where nothing does. */
  readonly written: string;
  /** The reason, in plain words: "is not a number". */
  readonly what: string;
}

/** The mistake on a line of its own: `line 12, area: "0,x" is not a number`. */
export function mistakeLine({ line, column, written, what }: FileMistake): string {
  const place = column === '' ? `line ${line}` : `line ${line}, ${column}`;
  return written === '' ? `${place}: ${what}` : `${place}: ${JSON.stringify(written)} ${what}`;
}
