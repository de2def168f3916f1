/** What befell the texts of a season on their road, and whether each reached its phone once. */
import type { Db } from '../../store/open.ts';
import type { FakeCarrier } from './fake-carrier.ts';

export interface Account {
  /** To be read by people. */
  readonly rows: readonly string[];
  /** Texts that were lost, came twice or are not known to have arrived, by their ids; none when all is well. */
  readonly faults: readonly string[];
}

/** What the account is drawn up from. */
export interface Travelled {
  readonly fake: Pick<FakeCarrier, 'kept'>;
  readonly misdeeds: ReadonlyMap<string, number>;
  readonly faults: readonly string[];
  /** Texts that growers sent, each counted once however often it was brought. */
  readonly brought: number;
}

/** Compares the outbox and the texts that came in with what the carrier knows. */
export async function accountOf(db: Db, { fake, misdeeds, faults, brought }: Travelled): Promise<Account> {
  const outbox = await db.selectFrom('outbox').select(['id', 'state']).orderBy('id').execute();
  const heard = await db.selectFrom('texts_in').select('id').execute();
  const times = timesOf(fake);
  const lost = outbox.filter(({ id }) => !times.has(id));
  const twice = outbox.filter(({ id }) => (times.get(id) ?? 0) > 1);
  const untold = outbox.filter(({ state }) => state !== 'delivered');
  return {
    rows: [
      '',
      `Texts out: ${outbox.length} queued, ${fake.kept.length} reached phones, ${twice.length} twice, ${lost.length} lost.`,
      `Texts in: ${brought} sent, ${heard.length} heard.`,
      'What the carrier did wrong:',
      ...[...misdeeds]
        .sort(([a], [b]) => (a < b ? -1 : 1))
        .map(([name, count]) => `${String(count).padStart(5)}  ${name}`),
    ],
    faults: [
      ...faults,
      ...lost.map(({ id }) => `FAULT text ${id} was lost`),
      ...twice.map(({ id }) => `FAULT text ${id} reached its phone ${times.get(id)} times`),
      ...untold.map(({ id, state }) => `FAULT text ${id} ended as ${state}`),
      ...(heard.length === brought ? [] : [`FAULT ${brought} texts were sent, ${heard.length} heard`]),
    ],
  };
}

/** How often each text of the outbox was taken: its id stands in the address for its receipts. */
function timesOf({ kept }: Travelled['fake']): ReadonlyMap<string, number> {
  const times = new Map<string, number>();
  for (const { form } of kept) {
    const id = new URL(form['StatusCallback'] ?? 'none:').searchParams.get('text') ?? '';
    times.set(id, (times.get(id) ?? 0) + 1);
  }
  return times;
}
