/** Water turns and visits of shared teams, as they were last told to the growers. */
import type { AppointmentKind, Visit } from '../../scheme/group/appointment.ts';
import type { Executor } from '../../store/ready-query.ts';

export interface PlotVisit {
  readonly plotId: string;
  readonly kind: AppointmentKind;
  /** The team's name; null for water. */
  readonly team: string | null;
  readonly visit: Visit;
}

/** Those of a scheme's plots that stand, by plot. */
export async function visitsOfScheme(db: Executor, schemeId: string): Promise<readonly PlotVisit[]> {
  const rows = await db
    .selectFrom('appointments')
    .innerJoin('plots', 'plots.id', 'appointments.plot_id')
    .innerJoin('broadcasts', 'broadcasts.id', 'appointments.broadcast_id')
    .select(['appointments.plot_id', 'appointments.kind', 'appointments.visit', 'broadcasts.head'])
    .where('plots.scheme_id', '=', schemeId)
    .orderBy('appointments.plot_id')
    .orderBy('appointments.kind')
    .execute();
  return rows.flatMap(({ plot_id, kind, visit, head }) => {
    if (visit === null) return [];
    const { teamName = null } = JSON.parse(head) as { readonly teamName?: string };
    return [{ plotId: plot_id, kind, team: teamName, visit: JSON.parse(visit) as Visit }];
  });
}
