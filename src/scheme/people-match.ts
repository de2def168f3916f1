/** Which rows of a file of people are plots that the scheme has already, and which contradict what it has. */
import type { FileMistake } from './file-mistake.ts';
import { growerKey, type KnownGrower, type KnownPeople, type KnownPlot } from './people-known.ts';
import type { ReadRow } from './people-row.ts';
import { bareLabel } from './plot-label.ts';

/** Rows that are known, rows that say otherwise of a plot that is known, and the mistakes of labels. */
export interface Match {
  readonly known: ReadonlySet<ReadRow>;
  readonly otherwise: ReadonlySet<ReadRow>;
  readonly mistakes: readonly FileMistake[];
}

type Growers = ReadonlyMap<string, KnownGrower>;

const M2_IN_HA = 10_000;
const sameArea = (a: number, b: number) => Math.round(a * M2_IN_HA) === Math.round(b * M2_IN_HA);

/**
 * A labelled row is known when its grower has that plot in that block with that area. One without a label is known when
 * its grower has such a plot, of that number where one is given, which no other row is.
 */
export function matchRows(rows: readonly ReadRow[], people: KnownPeople, growers: Growers): Match {
  const [known, otherwise] = [new Set<ReadRow>(), new Set<ReadRow>()];
  const mistakes: FileMistake[] = [];
  const claimed = new Set<KnownPlot>();
  const firstOf = new Map<string, ReadRow>();
  const labelled = byLabel(people.plots);
  for (const row of rows) {
    if (row.label === null) continue;
    const bare = bareLabel(row.label);
    const before = firstOf.get(bare);
    if (before) {
      mistakes.push(mistake(row, 'plot', `is on line ${before.line} too`));
      continue;
    }
    firstOf.set(bare, row);
    const plot = labelled.get(bare);
    if (!plot) continue;
    claimed.add(plot);
    const wrong = contradictions(row, plot, people, growers);
    (wrong.length === 0 ? known : otherwise).add(row);
    mistakes.push(...wrong);
  }
  const unnamed = rows.filter((row) => row.text.plot === '');
  const owned = byOwner(people.plots);
  // Those with a number first, so that none without takes the plot that they name.
  for (const row of [...unnamed.filter(({ number }) => number), ...unnamed.filter(({ number }) => !number)]) {
    const own = owned.get(growerOf(row, growers)?.id ?? '') ?? [];
    const plot = own.find((one) => !claimed.has(one) && isPlotOf(row, one));
    if (!plot) continue;
    claimed.add(plot);
    known.add(row);
  }
  return { known, otherwise, mistakes };
}

const byLabel = (plots: readonly KnownPlot[]) =>
  new Map(plots.flatMap((plot) => (plot.label === null ? [] : [[bareLabel(plot.label), plot] as const])));

function byOwner(plots: readonly KnownPlot[]): ReadonlyMap<string, readonly KnownPlot[]> {
  const owned = new Map<string, KnownPlot[]>();
  for (const plot of plots) {
    const own = owned.get(plot.ownerId);
    if (own) own.push(plot);
    else owned.set(plot.ownerId, [plot]);
  }
  return owned;
}

const mistake = (row: ReadRow, column: 'plot' | 'block' | 'area', what: string): FileMistake => ({
  line: row.line,
  column,
  written: row.text[column],
  what,
});

const growerOf = ({ name, phone }: ReadRow, growers: Growers) =>
  name === null || phone === null ? undefined : growers.get(growerKey(phone, name));

const isPlotOf = (row: ReadRow, plot: KnownPlot) =>
  row.block?.id === plot.blockId &&
  row.areaHa !== null &&
  sameArea(row.areaHa, plot.areaHa) &&
  (row.number === null || row.number === bareLabel(plot.number));

function contradictions(
  row: ReadRow,
  plot: KnownPlot,
  { blocks, growers: all }: KnownPeople,
  growers: Growers,
): FileMistake[] {
  if (row.name === null || row.phone === null) return [];
  if (growerOf(row, growers)?.id !== plot.ownerId) {
    const owner = all.find(({ id }) => id === plot.ownerId);
    return [mistake(row, 'plot', `is a plot of ${owner?.name ?? 'somebody else'} already`)];
  }
  const block = blocks.find(({ id }) => id === plot.blockId)?.name ?? plot.blockId;
  const [isMoved, isResized] = [
    row.block !== null && row.block.id !== plot.blockId,
    row.areaHa !== null && !sameArea(row.areaHa, plot.areaHa),
  ];
  return [
    ...(isMoved ? [mistake(row, 'block', `is not the block that ${plot.label} is known in: ${block}`)] : []),
    ...(isResized
      ? [mistake(row, 'area', `is not the area that ${plot.label} is known with: ${plot.areaHa} ha`)]
      : []),
  ];
}
