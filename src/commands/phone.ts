/** `phone`: a phone in the terminal. Texts go in by the same walk as the webhook's; replies and reminders are shown as screens. */
import { randomUUID } from 'node:crypto';
import { createInterface } from 'node:readline/promises';
import type { OpenLine } from '../sweeps/open-line.ts';
import { sweepOnce } from '../sweeps/sweep-once.ts';
import { sweepOutbox } from '../sweeps/sweep-outbox.ts';
import { takeText } from '../web/take-text.ts';
import { complain } from './complain.ts';
import { type DeskSettings, openSettingsLine } from './open-desk-line.ts';
import { screens } from './screen.ts';

const USAGE = 'usage: npm run -s phone -- [--as +447700900001]';
/** How often the terminal looks for reminders. */
const LOOK_MS = 3000;

/** Runs the phone until its input ends; returns the exit code. */
export async function phoneCommand(args: readonly string[], settings: DeskSettings): Promise<number> {
  const [flag, number, ...rest] = args;
  const piped = process.stdin.isTTY !== true;
  if (rest.length > 0 || (flag !== undefined && (flag !== '--as' || !/^\+[1-9]\d{6,14}$/.test(number ?? ''))))
    return complain(USAGE);
  if (piped && number === undefined) return complain(`${USAGE}: with texts piped in, say whose phone it is`);
  const line = await openSettingsLine(settings);
  try {
    await (piped ? pipeTexts(line, number ?? '') : hold(line, number));
    return 0;
  } finally {
    await line.close();
  }
}

const text = (line: OpenLine, from: string, words: string) =>
  takeText(line, { carrierId: `phone:${randomUUID()}`, from, text: words });

/** One text a line, one answer a line. */
async function pipeTexts(line: OpenLine, from: string): Promise<void> {
  for await (const words of createInterface({ input: process.stdin }))
    console.log((await text(line, from, words)) ?? '(no answer)');
}

/** Asks whose phone it is, then takes texts and shows what comes. */
async function hold(line: OpenLine, number: string | undefined): Promise<void> {
  const terminal = createInterface({ input: process.stdin, output: process.stdout });
  const ended = new Promise<null>((resolve) => terminal.once('close', () => resolve(null)));
  const from =
    number ?? (await choosePhone(line, (question) => Promise.race([terminal.question(question), ended])));
  if (from === null) return;
  const shown = new Set<string>((await textsTo(line, from)).map(({ id }) => id));
  const looking = setInterval(
    () => void showNew(line, from, shown).catch((error: unknown) => console.error(String(error))),
    LOOK_MS,
  );
  console.log(`This is the phone ${from}. Write a text and press Enter; Ctrl-D ends it.`);
  for (;;) {
    const words = await Promise.race([terminal.question('text> '), ended]);
    if (words === null) break;
    const answer = await text(line, from, words);
    for (const row of screens(answer ?? '(no answer)', 'reply')) console.log(row);
    await showNew(line, from, shown);
  }
  clearInterval(looking);
}

async function choosePhone(
  line: OpenLine,
  ask: (question: string) => Promise<string | null>,
): Promise<string | null> {
  const people = await line.db
    .selectFrom('people')
    .innerJoin('phone_people', 'phone_people.person_id', 'people.id')
    .select(['people.name', 'people.role', 'phone_people.phone'])
    .orderBy('phone_people.phone')
    .execute();
  for (const [index, { name, role, phone }] of people.entries()) {
    console.log(`${String(index + 1).padStart(3)}  ${phone}  ${name} (${role})`);
  }
  for (;;) {
    const answer = await ask('Whose phone? Number, or a phone number like +447700900123: ');
    if (answer === null) return null;
    const chosen =
      people[Number(answer) - 1]?.phone ?? (/^\+[1-9]\d{6,14}$/.test(answer.trim()) ? answer.trim() : null);
    if (chosen !== null) return chosen;
  }
}

function textsTo(line: OpenLine, phone: string) {
  return line.db
    .selectFrom('outbox')
    .select(['id', 'key', 'text'])
    .where('phone', '=', phone)
    .where('state', '!=', 'queued')
    .orderBy('created_ms')
    .execute();
}

/** Texts that have come meanwhile; the sweeps run here too, so that no server has to. */
async function showNew(line: OpenLine, phone: string, shown: Set<string>): Promise<void> {
  await sweepOnce(line);
  await sweepOutbox(line);
  for (const { id, key, text: words } of await textsTo(line, phone)) {
    if (shown.has(id)) continue;
    shown.add(id);
    const title = key.startsWith('reminder:') ? 'reminder' : 'text';
    for (const row of screens(words, title)) console.log(row);
  }
}
