/** Appointments of plots, as the newest broadcast about each has them. */
import {
  type Appointment,
  type AppointmentKind,
  sameVisit,
  type Visit,
} from '../scheme/group/appointment.ts';
import type { Executor } from './ready-query.ts';
import { readyRows } from './ready-rows.ts';
import type { AppointmentsTable } from './tables.ts';

/** Plots asked about in one query. */
const PLOTS_TOGETHER = 500;

const putAppointments = readyRows((db, rows: readonly AppointmentsTable[]) =>
  db
    .insertInto('appointments')
    .values(
      rows.map((row) => ({
        plot_id: row.plot_id,
        kind: row.kind,
        broadcast_id: row.broadcast_id,
        visit: row.visit,
        before: row.before,
      })),
    )
    .onConflict((on) =>
      on.columns(['plot_id', 'kind']).doUpdateSet((eb) => ({
        broadcast_id: eb.ref('excluded.broadcast_id'),
        visit: eb.ref('excluded.visit'),
        before: eb.ref('excluded.before'),
      })),
    ),
);

/** What stands for a plot, and what its grower was told last. */
interface Standing {
  readonly visit: Visit | null;
  readonly told: Visit | null;
}

/**
 * Gives the plots their appointments of this kind, under the broadcast that tells of them. What stands already is not
 * touched; of two for one plot the later counts. Throws when a plot is unknown.
 */
export async function keepAppointments(
  db: Executor,
  broadcastId: string,
  kind: AppointmentKind,
  appointments: readonly Appointment[],
): Promise<void> {
  const wanted = [...new Map(appointments.map((one) => [one.plotId, one])).values()];
  for (let at = 0; at < wanted.length; at += PLOTS_TOGETHER) {
    const some = wanted.slice(at, at + PLOTS_TOGETHER);
    const standing = await standingOf(db, kind, some);
    const changed = some.filter(
      ({ plotId, visit }) => !sameVisit(standing.get(plotId)?.visit ?? null, visit),
    );
    const rows = changed.map(({ plotId, visit }) => ({
      plot_id: plotId,
      kind,
      broadcast_id: broadcastId,
      visit: visitColumn(visit),
      before: visitColumn(standing.get(plotId)?.told ?? null),
    }));
    await putAppointments(db, rows);
  }
}

/** What a broadcast said that has not come to the grower yet was not told: what stood before it still is. */
async function standingOf(db: Executor, kind: AppointmentKind, some: readonly Appointment[]) {
  const ids = some.map(({ plotId }) => plotId);
  const rows = await db
    .selectFrom('appointments')
    .innerJoin('plots', 'plots.id', 'appointments.plot_id')
    .innerJoin('broadcasts', 'broadcasts.id', 'appointments.broadcast_id')
    .select(['appointments.plot_id', 'appointments.visit', 'appointments.before'])
    .select((eb) =>
      eb
        .case()
        .when(
          eb.and([
            eb('broadcasts.state', '=', 'queuing'),
            eb('plots.owner_id', '>', eb.ref('broadcasts.next_after')),
          ]),
        )
        .then(0)
        .else(1)
        .end()
        .as('told'),
    )
    .where('appointments.plot_id', 'in', ids)
    .where('appointments.kind', '=', kind)
    .execute();
  return new Map(
    rows.map(({ plot_id, visit, before, told }): [string, Standing] => [
      plot_id,
      { visit: visitOf(visit), told: visitOf(told === 1 ? visit : before) },
    ]),
  );
}

const visitColumn = (visit: Visit | null) => (visit === null ? null : JSON.stringify(visit));
/** A visit as its column has it. */
export const visitOf = (column: string | null) => (column === null ? null : (JSON.parse(column) as Visit));
