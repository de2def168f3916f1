/** Reads what an agent answers for: the plots of the blocks with their growers, appointments, reports and troubles. */
import type { Day } from '../plan/day.ts';
import type { Visit } from '../scheme/group/appointment.ts';
import type { Group, GroupPlot, GroupTrouble, Grower } from '../talk/group.ts';
import { inScheme, NOTHING, type Setting, withReports } from './load-phone.ts';
import { localDay } from './local-time.ts';
import { plotOf, plotRows } from './plots.ts';
import type { Executor } from './ready-query.ts';
import { reportsIn } from './reports.ts';
import { dayOfColumn } from './span-columns.ts';
import { isDoubted } from './talks.ts';

/** What is in the database of a group. */
export type GroupFacts = Pick<Group, 'blocks' | 'plots' | 'troubles' | 'labels'>;

const TROUBLE_DAYS = 7;
const DAY_MS = 86_400_000;

/** The agent's blocks with all that stands there; nothing for an agent whose blocks are no longer there. */
export async function loadGroup(db: Executor, agentId: string, setting: Setting): Promise<GroupFacts> {
  const { scheme } = setting;
  const own = await blocksOf(db, agentId);
  const blocks = scheme.world.blocks.filter(({ id }) => own === null || own.includes(id));
  const ids = blocks.map(({ id }) => id);
  const plots = ids.length === 0 ? [] : await plotsIn(db, ids, setting);
  return {
    blocks,
    plots,
    troubles: ids.length === 0 ? [] : await troublesIn(db, ids, setting),
    labels: await labelsOf(db, scheme.world.id),
  };
}

async function blocksOf(db: Executor, agentId: string): Promise<readonly string[] | null> {
  const row = await db.selectFrom('people').select('blocks').where('id', '=', agentId).executeTakeFirst();
  return row?.blocks == null ? null : (JSON.parse(row.blocks) as string[]);
}

async function plotsIn(
  db: Executor,
  blockIds: readonly string[],
  { scheme, nowMs }: Setting,
): Promise<readonly GroupPlot[]> {
  const rows = await plotRows(db, blockIds);
  const growers = await growersIn(db, blockIds, nowMs);
  const held = await reportsIn(db, blockIds);
  const order = new Map(blockIds.map((id, place) => [id, place]));
  return rows
    .map((row): GroupPlot => {
      const grower = growers.get(row.owner_id) ?? nobody(row.owner_id);
      const plot = inScheme(withReports(plotOf(row), held.get(row.season_id) ?? NOTHING), scheme);
      return {
        ...plot,
        name: plot.label ?? `${grower.name} ${plot.number}`,
        grower,
        water: visitOf(row.water_visit),
        team: visitOf(row.team_visit),
        since: dayOfColumn(row.planned_on),
      };
    })
    .sort((a, b) => (order.get(a.blockId) ?? 0) - (order.get(b.blockId) ?? 0));
}

const visitOf = (visit: string | null) => (visit === null ? null : (JSON.parse(visit) as Visit));

const nobody = (id: string): Grower => ({ id, name: '', lang: 'en', phone: null, stopped: true });

/** Growers by id; of several phones the first that takes texts. */
async function growersIn(
  db: Executor,
  blockIds: readonly string[],
  nowMs: number,
): Promise<ReadonlyMap<string, Grower>> {
  const rows = await db
    .selectFrom('people')
    .leftJoin('phone_people', 'phone_people.person_id', 'people.id')
    .leftJoin('phones', 'phones.number', 'phone_people.phone')
    .select(['people.id', 'people.name', 'people.lang'])
    .select(['phones.number', 'phones.stopped', 'phones.vouched_ms'])
    .where(({ exists, selectFrom }) =>
      exists(
        selectFrom('plots')
          .select('plots.id')
          .whereRef('plots.owner_id', '=', 'people.id')
          .where('plots.block_id', 'in', blockIds),
      ),
    )
    .orderBy('phone_people.place')
    .orderBy('phone_people.phone')
    .execute();
  const growers = new Map<string, Grower>();
  for (const { id, name, lang, number, stopped, vouched_ms } of rows) {
    const known = growers.get(id);
    if (known && !known.stopped) continue;
    if (known && stopped === 1) continue;
    const takesNone = number === null || stopped === 1;
    const silent = !takesNone && isDoubted({ vouched_ms }, nowMs);
    growers.set(id, { id, name, lang, phone: number, stopped: takesNone, ...(silent && { silent }) });
  }
  return growers;
}

async function troublesIn(
  db: Executor,
  blockIds: readonly string[],
  { scheme, nowMs }: Setting,
): Promise<readonly GroupTrouble[]> {
  const rows = await db
    .selectFrom('troubles')
    .innerJoin('seasons', 'seasons.id', 'troubles.season_id')
    .innerJoin('plots', 'plots.id', 'seasons.plot_id')
    .select(['plots.id as plotId', 'troubles.what', 'troubles.said_ms'])
    .where('plots.block_id', 'in', blockIds)
    .where('seasons.open', '=', 1)
    .where('troubles.said_ms', '>', nowMs - TROUBLE_DAYS * DAY_MS)
    .orderBy('troubles.said_ms')
    .execute();
  const dayOf = (ms: number): Day => localDay(ms, scheme.timeZone);
  return rows.map(({ plotId, what, said_ms }) => ({ plotId, what, on: dayOf(said_ms) }));
}

async function labelsOf(db: Executor, schemeId: string): Promise<readonly string[]> {
  const rows = await db
    .selectFrom('plots')
    .innerJoin('seasons', 'seasons.plot_id', 'plots.id')
    .select('plots.label')
    .where('plots.scheme_id', '=', schemeId)
    .where('seasons.open', '=', 1)
    .where('plots.label', 'is not', null)
    .execute();
  return rows.flatMap(({ label }) => (label === null ? [] : [label]));
}
