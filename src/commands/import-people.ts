/** Reads a file of people against the database, and writes what it asks for. */
import { type PeopleReading, readPeopleFile } from '../scheme/people-file.ts';
import { noteFileAct } from '../store/agent-acts.ts';
import { addGrower, addPlots } from '../store/change-people.ts';
import type { Trx } from '../store/commit-together.ts';
import { knownPeople } from '../store/known-people.ts';
import type { SchemeEntry } from '../store/load-schemes.ts';
import type { Executor } from '../store/ready-query.ts';
import { planPhone } from '../sweeps/first-reminders.ts';
import type { Line } from '../sweeps/line.ts';
import { senderNumber } from '../sweeps/sender.ts';
import { readSheet } from './people-sheet.ts';

/** A file by its name, with its bytes. */
export interface PeopleFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Phones that are planned in one transaction: a server beside this must get its turn. */
const PHONES_TOGETHER = 32;

/** What the file asks for; nothing is written. */
export async function readPeople(
  db: Executor,
  scheme: SchemeEntry,
  bytes: Uint8Array,
): Promise<PeopleReading> {
  const readPhone = (text: string) => senderNumber(text, scheme.country);
  return readPeopleFile(readSheet(bytes), await knownPeople(db, scheme), readPhone);
}

/** Writes all that the file asks for in one transaction, nothing when it has a mistake; then plans the phones' reminders. */
export async function importPeople(
  line: Line,
  scheme: SchemeEntry,
  file: PeopleFile,
): Promise<PeopleReading> {
  const reading = await line.together(async (trx) => {
    const read = await readPeople(trx, scheme, file.bytes);
    if (read.ok && read.changes.length > 0) await writeChanges(trx, line, scheme, file.name, read);
    return read;
  });
  if (reading.ok) await planPhones(line, [...new Set(reading.added.map(({ phone }) => phone))]);
  return reading;
}

type Readable = Extract<PeopleReading, { ok: true }>;

async function writeChanges(
  trx: Trx,
  { makeId, clock }: Line,
  { world }: SchemeEntry,
  fileName: string,
  { changes, newGrowers, added, knownPlots }: Readable,
): Promise<void> {
  for (const change of changes) {
    if (change.kind === 'add-grower') await addGrower(trx, world.id, change, makeId);
    else if (change.kind === 'add-plot')
      await addPlots(trx, world.id, change.growerId, [change.plot], makeId);
    else throw new Error(`a file of people asked for "${change.kind}"`);
  }
  const details = `${fileName}: growers ${newGrowers}, plots ${added.length}, known ${knownPlots}`;
  await noteFileAct(trx, makeId(), { schemeId: world.id, act: 'import', details, nowMs: clock.nowMs() });
}

async function planPhones(line: Line, phones: readonly string[]): Promise<void> {
  for (let from = 0; from < phones.length; from += PHONES_TOGETHER) {
    const some = phones.slice(from, from + PHONES_TOGETHER);
    await Promise.all(some.map((phone) => line.together((trx) => planPhone(trx, line, phone))));
  }
}
