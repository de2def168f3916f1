/** SQLite only: asks the database how it would run the hot queries, so that none walks a whole table. */
import type { CompiledQuery, KyselyPlugin } from 'kysely';
import { expect, onTestFinished, test } from 'vitest';
import { appointedOf, ownersAfter } from '../../src/store/appointed.ts';
import { keepAppointments } from '../../src/store/appointments.ts';
import { isFewPlots, phonesAfter } from '../../src/store/broadcast-phones.ts';
import {
  countTexts,
  failedTexts,
  holdBack,
  isSending,
  plotsOfTexts,
} from '../../src/store/broadcast-texts.ts';
import { broadcastsIn, moveQueuing } from '../../src/store/broadcasts.ts';
import { forgetPerson } from '../../src/store/forget.ts';
import { loadPhone } from '../../src/store/load-phone.ts';
import { migrate } from '../../src/store/migrate.ts';
import { type Db, openDatabase } from '../../src/store/open.ts';
import { isQueued, leaseTexts, purgePhone } from '../../src/store/outbox.ts';
import { ownTexts } from '../../src/store/own-texts.ts';
import { phoneToRemind } from '../../src/store/people.ts';
import { plantScheme } from '../../src/store/plant-scheme.ts';
import { dueOfOwner, ownersWithDue, replaceReminders } from '../../src/store/reminders.ts';
import { answeredBefore, sorriesSince } from '../../src/store/texts-in.ts';
import { seedOfFile } from '../../src/sweeps/seed-of-file.ts';
import { ANN, seasonOf, VALLEY } from '../support/valley-scheme.ts';

/** The database, with every query that passes kept. */
function watched(db: Db): {
  readonly db: Db;
  readonly queries: { sql: string; parameters: readonly unknown[] }[];
} {
  const queries: { sql: string; parameters: readonly unknown[] }[] = [];
  const plugin: KyselyPlugin = {
    transformQuery: ({ node, queryId }) => {
      const query = db.getExecutor().compileQuery(node, queryId);
      // A ready query passes here once, when it is made: its places are still empty.
      if (!query.parameters.some((value) => typeof value === 'object' && value !== null)) queries.push(query);
      return node;
    },
    transformResult: async ({ result }) => result,
  };
  const plugged = db.withPlugin(plugin);
  const executeQuery = (query: CompiledQuery) => {
    queries.push(query);
    return plugged.executeQuery(query);
  };
  return {
    queries,
    db: new Proxy(plugged, {
      get: (target, name) => (name === 'executeQuery' ? executeQuery : bound(target, name)),
    }),
  };
}

function bound(target: Db, name: string | symbol): unknown {
  const value: unknown = Reflect.get(target, name, target);
  return typeof value === 'function' ? value.bind(target) : value;
}

async function planOf(db: Db, query: { sql: string; parameters: readonly unknown[] }): Promise<string> {
  const explain = { ...query, sql: `explain query plan ${query.sql}` } as CompiledQuery<{ detail: string }>;
  const { rows } = await db.executeQuery(explain);
  return rows.map((row) => row.detail).join('\n');
}

const BLOCKS = { blockIds: ['test-valley/upper'], keyPrefix: 'broadcast:b:' };
const HEAD = {
  agentId: 'test-valley/eve',
  agentName: 'Eve',
  blockNames: ['Upper'],
  blockIds: BLOCKS.blockIds,
};
const WORDS = { ...HEAD, kind: 'words', words: 'hello' } as const;
const WATER = { ...HEAD, kind: 'water' } as const;
const KEPT = { id: 'b', schemeId: 'test-valley', phone: ANN, state: 'sending', nextAfter: '' } as const;

const FAILED = { key: `broadcast:b:${ANN}:test-valley/ann`, phone: ANN, why: null, isTriedAgain: false };

/** Taking away what is not there reads all that stands and writes nothing. */
const NEW_VISITS = [{ plotId: 'test-valley/p1', visit: null }];

const WALKS: readonly (readonly [string, string, (db: Db) => Promise<unknown>])[] = [
  ['the world of a phone', 'reports_season', (db) => loadPhone(db, ANN)],
  ['the answer given before', 'carrier_id=?', (db) => answeredBefore(db, 'SM1')],
  ['what the line last said to a phone', 'texts_in USING INDEX', (db) => ownTexts(db, ANN)],
  ['sorries to a phone', 'texts_in USING INDEX', (db) => sorriesSince(db, ANN, 0)],
  ['who has something due', 'reminders_due', (db) => ownersWithDue(db, 'test-valley', 20_000)],
  ['what is due to one person', 'plots_owner', (db) => dueOfOwner(db, 'test-valley/ann', 20_000)],
  ['where to remind a person', 'phone_people_person', (db) => phoneToRemind(db, 'test-valley/ann')],
  [
    'new reminders of a season',
    'season_id=?',
    (db) => replaceReminders(db, 'test-valley', seasonOf('p1'), []),
  ],
  ['a key of the outbox', 'key=?', (db) => isQueued(db, 'k')],
  ['what may be sent', 'outbox_state', (db) => leaseTexts(db, 0, 10)],
  ['what an opt-out takes back', 'outbox_phone', (db) => purgePhone(db, ANN, 0)],
  ['phones that words go to', '(phone>?)', (db) => phonesAfter(db, BLOCKS, '', 500, false)],
  ['phones of a few plots', 'plots_block', (db) => phonesAfter(db, BLOCKS, '', 500, true)],
  ['whether plots are few', 'plots_block', (db) => isFewPlots(db, BLOCKS.blockIds)],
  ['whom appointments concern', 'appointments_broadcast', (db) => ownersAfter(db, 'b', '', 500)],
  ['what is new for them', 'plots_owner', (db) => appointedOf(db, 'b', 'water', ['test-valley/ann'])],
  ['what stands for plots', 'plot_id=?', (db) => keepAppointments(db, 'b', 'water', NEW_VISITS)],
  ['broadcasts to be queued', 'broadcasts_state', (db) => broadcastsIn(db, 'queuing')],
  ['how far a broadcast has come', 'id=?', (db) => moveQueuing(db, 'b', ANN)],
  ['whether a broadcast is being sent', 'key>? AND key<?', (db) => isSending(db, 'b')],
  ['how a broadcast stands', 'key>? AND key<?', (db) => countTexts(db, 'b')],
  ['what waits for the morning', 'outbox', (db) => holdBack(db, 'b', 1)],
  ['whom a broadcast did not reach', 'key>? AND key<?', (db) => failedTexts(db, 'b')],
  [
    'plots that words did not reach',
    'plots_owner',
    (db) => plotsOfTexts(db, { ...KEPT, head: WORDS }, [FAILED]),
  ],
  [
    'plots that turns did not reach',
    'appointments_broadcast',
    (db) => plotsOfTexts(db, { ...KEPT, head: WATER }, [FAILED]),
  ],
  ['a person to be forgotten', 'reports_phone', (db) => forgetPerson(db, 'test-valley/ann', 'b')],
];

test.each(WALKS)('%s: by index (%s), no table walked', async (_name, index, walk) => {
  const db = openDatabase(':memory:');
  onTestFinished(() => db.destroy());
  await migrate(db);
  await plantScheme(db, await seedOfFile(db, VALLEY, 0));
  const { db: watchedDb, queries } = watched(db);
  await walk(watchedDb);
  expect(queries.length).toBeGreaterThan(0);
  const plans = [];
  for (const query of queries) plans.push(await planOf(db, query));
  expect(plans.join('\n')).toContain(index);
  expect(plans.join('\n')).not.toMatch(/^SCAN/m);
});
