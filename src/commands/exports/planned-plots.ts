/** Every open plot of the chosen blocks with its plan of today. */
import { planPlot } from '../../agronomy/plan-plot.ts';
import type { PlotPlan } from '../../agronomy/plot-plan.ts';
import type { Rulebook } from '../../agronomy/rulebook.ts';
import type { Day } from '../../plan/day.ts';
import { loadSchemePlots } from '../../store/load-scheme-plots.ts';
import type { Executor } from '../../store/ready-query.ts';
import { type Chosen, plotName } from './chosen.ts';

export interface PlannedPlot {
  readonly id: string;
  readonly blockId: string;
  readonly name: string;
  readonly plan: PlotPlan;
}

/** The plots by block and place, planned by the scheme's rules. */
export async function plannedPlots(
  db: Executor,
  { scheme, blocks }: Chosen,
  book: Rulebook,
  today: Day,
): Promise<readonly PlannedPlot[]> {
  const people = db.selectFrom('people').select(['id', 'name']).where('scheme_id', '=', scheme.world.id);
  const names = new Map((await people.execute()).map(({ id, name }) => [id, name]));
  const plots = await loadSchemePlots(db, scheme);
  return blocks.flatMap((block) =>
    plots
      .filter(({ blockId }) => blockId === block.id)
      .map(({ id, blockId, label, number, ownerId, season }) => {
        const name = plotName(label, names.get(ownerId) ?? '', number);
        return { id, blockId, name, plan: planPlot(season, book, today) };
      }),
  );
}
