/** Tables of people for tests: made, and read as the import reads them, against a small scheme that is known. */

import { readSheet } from '../../src/commands/people-sheet.ts';
import { mistakeLine } from '../../src/scheme/file-mistake.ts';
import { type PeopleReading, readPeopleFile } from '../../src/scheme/people-file.ts';
import type { KnownPeople } from '../../src/scheme/people-known.ts';
import { senderNumber } from '../../src/sweeps/sender.ts';

/** Two blocks; Ann has U-1 and, without a label, plot 2; she and Bob share a phone. */
export const KNOWN: KnownPeople = {
  blocks: [
    { id: 'v/upper', fileId: 'upper', name: 'Upper', way: { water: 'rain-fed', establishment: 'wet-seed' } },
    { id: 'v/low', fileId: 'low', name: 'Étang bas' },
  ],
  languages: ['en', 'fr'],
  areaUnit: { words: ['tin', 'tins'], m2: 500 },
  varietyDays: 105,
  growers: [
    { id: 'ann', name: 'Ann', phones: ['+447700900001', '+447700900011'] },
    { id: 'bob', name: 'Bob', phones: ['+447700900001'] },
  ],
  phonesOf: new Map([
    ['ann', ['+447700900001', '+447700900011']],
    ['bob', ['+447700900001']],
  ]),
  plots: [
    { ownerId: 'ann', number: '1', label: 'U-1', blockId: 'v/upper', areaHa: 0.4 },
    { ownerId: 'ann', number: '02', label: null, blockId: 'v/low', areaHa: 0.25 },
    { ownerId: 'bob', number: '3', label: 'U-3', blockId: 'v/upper', areaHa: 1 },
  ],
};

/** Reads a table against it. */
export function readPeopleText(text: string | Uint8Array, known: KnownPeople = KNOWN): PeopleReading {
  const bytes = typeof text === 'string' ? new TextEncoder().encode(text) : text;
  return readPeopleFile(readSheet(bytes), known, (phone) => senderNumber(phone, 'GB'));
}

/** The mistakes as they are printed; none when there are none. */
export const mistakesIn = (text: string | Uint8Array): readonly string[] => {
  const reading = readPeopleText(text);
  return reading.ok ? [] : reading.mistakes.map(mistakeLine);
};
