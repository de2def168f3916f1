/** The sums of a group at their largest, and what each takes beside a tenth of the size. */
import { bestFloodDate } from '../scheme/group/flood-date.ts';
import { teamOrder } from '../scheme/group/team-order.ts';
import { waterTurns } from '../scheme/group/water-turns.ts';

const TODAY = 20_900;
/** The fastest of so many counts. */
const ROUNDS = 31;
const TENTH = 10;

/** One row for each sum. */
export function benchGroup(): Promise<readonly string[]> {
  return Promise.resolve([
    row('the best flood date', 10_000, floodDate),
    row('water turns', 10_000, turns),
    row("a team's order", 200, order),
  ]);
}

function row(name: string, plots: number, sum: (plots: number) => void): string {
  const [small, large] = [fastestMs(plots / TENTH, sum), fastestMs(plots, sum)];
  return `group: ${name} of ${plots} plots ${large.toFixed(2)} ms, of ${plots / TENTH} ${small.toFixed(2)} ms: ${(large / small).toFixed(1)} times for ${TENTH} times the plots`;
}

function fastestMs(plots: number, sum: (plots: number) => void): number {
  const times = Array.from({ length: ROUNDS }, () => {
    const started = performance.now();
    sum(plots);
    return performance.now() - started;
  });
  return Math.min(...times);
}

const idOf = (index: number) => `p${index}`;
/** Spread over `count` values without an order. */
const spread = (index: number, count: number) => (index * 7919) % count;

function floodDate(count: number): void {
  const plots = Array.from({ length: count }, (_, index) => {
    const from = TODAY + spread(index, 60);
    const days = index % 20 === 0 ? null : { from, to: from + 5 + spread(index, 25) };
    return { plotId: idOf(index), areaHa: 0.2 + spread(index, 9) / 10, days };
  });
  if (bestFloodDate(plots, { from: TODAY, to: TODAY + 90 }) === null) throw new Error('no day was found');
}

function turns(count: number): void {
  const plots = Array.from({ length: count }, (_, index) => ({
    plotId: idOf(index),
    areaHa: 0.2 + spread(index, 9) / 10,
  }));
  // As much water for each plot, whatever their number: the last turn ends within the season.
  const canal = { flowLps: 2 * count, depthMm: 150, lossMmPerDay: 5, from: TODAY };
  const found = waterTurns(plots, { ...canal, open: { fromHour: 6, toHour: 18 } });
  if (found.turns.length !== count) throw new Error('a plot got no turn');
}

function order(count: number): void {
  const plots = Array.from({ length: count }, (_, index) => {
    const releaseOn = TODAY + spread(index, Math.ceil(count / 4));
    return {
      plotId: idOf(index),
      releaseOn,
      lastOn: releaseOn + 3 + spread(index, 12),
      hours: 1 + spread(index, 4),
    };
  });
  const found = teamOrder(plots, { from: TODAY, hoursADay: 8, movingHours: 0.5 });
  if (found.visits.length !== count) throw new Error('a plot was left out');
}
