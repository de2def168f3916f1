/** Draws a text as a basic phone shows it: one screen of 160 characters for each part. */
import { splitParts } from '../say/parts.ts';

const COLUMNS = 40;

/** The lines of all screens of a text. `screens('Plot 3 ploughed.')` is a frame of one line. */
export function screens(text: string, title: string): readonly string[] {
  const parts = splitParts(text);
  return parts.flatMap((part, index) =>
    frame(part, parts.length > 1 ? `${title} ${index + 1}/${parts.length}` : title),
  );
}

function frame(text: string, title: string): readonly string[] {
  const head = `+- ${title} ${'-'.repeat(Math.max(0, COLUMNS - title.length - 1))}+`;
  const body = text.split('\n').flatMap((line) => wrap(line));
  return [head, ...body.map((line) => `| ${line.padEnd(COLUMNS)} |`), `+${'-'.repeat(COLUMNS + 2)}+`];
}

/** Breaks between words, and inside a word that is longer than a line. */
function wrap(line: string): readonly string[] {
  const rows: string[] = [];
  let row = '';
  for (const word of line.split(' ')) {
    if (row !== '' && row.length + 1 + word.length > COLUMNS) {
      rows.push(row);
      row = word;
    } else {
      row = row === '' ? word : `${row} ${word}`;
    }
    while (row.length > COLUMNS) {
      rows.push(row.slice(0, COLUMNS));
      row = row.slice(COLUMNS);
    }
  }
  return [...rows, row];
}
