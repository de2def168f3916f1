/** `npm run -s ledger`: what texts came to, by day, by block and by kind, over a span of days. It names no person and no number. */
import { existsSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { clockFrom, realClock } from '../clock.ts';
import { type Day, isoDay, parseDay } from '../plan/day.ts';
import { loadSchemes, type SchemeEntry } from '../store/load-schemes.ts';
import { localDay } from '../store/local-time.ts';
import { migrate } from '../store/migrate.ts';
import { type Db, openDatabase } from '../store/open.ts';
import { complain } from './complain.ts';
import { ledgerTable } from './ledgers/ledger-table.ts';
import { readLedger } from './ledgers/read-ledger.ts';
import { KINDS, type LedgerSum } from './ledgers/sum-ledger.ts';
import type { DeskSettings } from './open-desk-line.ts';
import { chooseScheme, schemeChosen } from './scheme-chosen.ts';

const USAGE = 'usage: npm run -s ledger -- [--from YYYY-MM-DD] [--to YYYY-MM-DD] [--json] [--scheme ID]';
const OPTIONS = {
  from: { type: 'string' },
  to: { type: 'string' },
  json: { type: 'boolean' },
  scheme: { type: 'string' },
} as const;

/** Days that are told when none are named: these and today. */
const DAYS_BEFORE = 29;
/** Ten years: every day of the span is read. */
const MOST_DAYS = 3660;

interface Span {
  readonly from: Day;
  readonly to: Day;
}

/** Runs it; exit code 2 when the command, a date or a scheme is not understood. */
export async function ledgerCommand(args: readonly string[], settings: DeskSettings): Promise<number> {
  const asked = readArguments(args);
  if (asked === null) return complain(USAGE);
  const { databasePath, clockStartMs } = settings;
  if (!existsSync(databasePath)) return complain(`there is no database ${databasePath}`);
  const clock = clockStartMs === null ? realClock : clockFrom(clockStartMs);
  const db = openDatabase(databasePath);
  try {
    await migrate(db);
    const schemes = await loadSchemes(db);
    const scheme = schemeChosen(schemes, asked.scheme);
    if (scheme === null) return complain(chooseScheme(schemes));
    const span = spanOf(asked, localDay(clock.nowMs(), scheme.timeZone));
    if (typeof span === 'string') return complain(span);
    for (const row of await ledgerLines(
      db,
      scheme,
      { ...span, takesStrangers: schemes[0] === scheme },
      asked,
    ))
      console.log(row);
    return 0;
  } finally {
    await db.destroy();
  }
}

/** The table, or one line of JSON. */
export async function ledgerLines(
  db: Db,
  scheme: SchemeEntry,
  span: Span & { readonly takesStrangers: boolean },
  { json }: { readonly json?: boolean | undefined },
): Promise<readonly string[]> {
  const { ledger, cameIn } = await readLedger(db, scheme, span);
  const total = ledger.total();
  const blocks = inOrder(
    ledger.by('block'),
    scheme.world.blocks.map(({ name }) => name),
  );
  const parts = { days: ledger.by('day'), blocks, kinds: inOrder(ledger.by('kind'), KINDS) };
  const [from, to] = [isoDay(span.from), isoDay(span.to)];
  if (json === true) {
    const sums = Object.entries(parts).map(([name, part]) => [name, Object.fromEntries(part)] as const);
    return [
      JSON.stringify({ scheme: scheme.world.id, from, to, total, ...Object.fromEntries(sums), cameIn }),
    ];
  }
  const table = ledgerTable(
    [
      { heading: 'day', sums: parts.days },
      { heading: 'block', sums: parts.blocks },
      { heading: 'kind', sums: parts.kinds },
    ],
    total,
  );
  return [
    `${scheme.world.name}, ${from} to ${to}: texts that the carrier took`,
    '',
    ...table,
    '',
    `Texts in: ${cameIn.texts}, parts ${cameIn.parts}, by the carrier ${cameIn.carrierParts}.`,
  ];
}

/** Those of the list first, in its order. */
function inOrder(
  sums: ReadonlyMap<string, LedgerSum>,
  names: readonly string[],
): ReadonlyMap<string, LedgerSum> {
  const placeOf = (name: string) => (names.includes(name) ? names.indexOf(name) : names.length);
  return new Map([...sums].sort(([a], [b]) => placeOf(a) - placeOf(b)));
}

/** The days that are asked for; a sentence that says what is wrong with them. */
function spanOf(
  asked: { readonly from?: string | undefined; readonly to?: string | undefined },
  today: Day,
): Span | string {
  const to = asked.to === undefined ? today : parseDay(asked.to);
  if (to === null) return '--to must be a date like 2027-03-10';
  const from = asked.from === undefined ? to - DAYS_BEFORE : parseDay(asked.from);
  if (from === null) return '--from must be a date like 2027-03-10';
  if (from > to) return '--from comes after --to';
  return to - from >= MOST_DAYS ? `the span is longer than ${MOST_DAYS} days` : { from, to };
}

function readArguments(args: readonly string[]) {
  try {
    return parseArgs({ args: [...args], options: OPTIONS }).values;
  } catch {
    return null;
  }
}
