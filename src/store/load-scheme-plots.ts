/** Every open plot of a scheme, with its season as a conversation of its grower sees it. */
import type { PlotWorld } from '../talk/world.ts';
import { inScheme, withReports } from './load-phone.ts';
import type { SchemeEntry } from './load-schemes.ts';
import { plotsOfScheme } from './plots.ts';
import type { Executor } from './ready-query.ts';
import { type Held, reportsOfScheme } from './reports.ts';

/** The plots by block and place along its canal, each under the scheme's days of rest and its usual weather. */
export async function loadSchemePlots(db: Executor, scheme: SchemeEntry): Promise<readonly PlotWorld[]> {
  const plots = await plotsOfScheme(db, scheme.world.id);
  const heldOf = bySeason(await reportsOfScheme(db, scheme.world.id));
  return plots.map((plot) => inScheme(withReports(plot, heldOf(plot.seasonId)), scheme));
}

/** What each season holds, gathered once: looking through all of it for every plot would take too long. */
function bySeason({ reports, rains }: Held): (seasonId: string) => Held {
  const held = new Map<string, { reports: Held['reports'][number][]; rains: Held['rains'][number][] }>();
  const of = (seasonId: string) => {
    const own = held.get(seasonId) ?? { reports: [], rains: [] };
    held.set(seasonId, own);
    return own;
  };
  for (const report of reports) of(report.seasonId).reports.push(report);
  for (const rain of rains) of(rain.seasonId).rains.push(rain);
  return of;
}
