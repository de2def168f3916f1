/** A ledger as a table whose columns stand under each other. */
import { shownPrice } from '../../scheme/price.ts';
import type { LedgerSum } from './sum-ledger.ts';

/** A heading with its rows by name. */
export interface LedgerPart {
  readonly heading: string;
  readonly sums: ReadonlyMap<string, LedgerSum>;
}

const HEADS = ['texts', 'parts', 'carrier’s parts', 'price'] as const;

/** The lines: for each part a heading and its rows; the sum of all last. */
export function ledgerTable(parts: readonly LedgerPart[], total: LedgerSum): readonly string[] {
  const groups = [...parts, { heading: 'sum', sums: new Map([['all', total]]) }];
  const rows = groups.flatMap(({ heading, sums }) => [
    [heading, ...HEADS],
    ...[...sums].map(([name, sum]) => [name, ...cellsOf(sum)]),
    [],
  ]);
  const widths = [0, ...HEADS].map((_, column) =>
    Math.max(...rows.map((row) => [...(row[column] ?? '')].length)),
  );
  return rows.slice(0, -1).map((row) => lineOf(row, widths));
}

function cellsOf(sum: LedgerSum): readonly string[] {
  return [String(sum.texts), String(sum.parts), carrierCell(sum), priceCell(sum)];
}

/** "31 (of 20 texts)" where the carrier told of some only; "-" where it told of none. */
function carrierCell({ texts, carrierParts, carrierTold }: LedgerSum): string {
  if (carrierTold === 0) return '-';
  return carrierTold === texts ? String(carrierParts) : `${carrierParts} (of ${carrierTold} texts)`;
}

function priceCell({ price, unpriced }: LedgerSum): string {
  const sums = Object.entries(price).map(([currency, amount]) => `${shownPrice(amount)} ${currency}`);
  const without = unpriced === 0 ? [] : [`${unpriced} without a price`];
  return [...sums, ...without].join(' + ') || '-';
}

/** Names stand left, figures right. */
function lineOf(row: readonly string[], widths: readonly number[]): string {
  const cells = row.map((cell, column) => {
    const gap = ' '.repeat((widths[column] ?? 0) - [...cell].length);
    return column === 0 ? cell + gap : gap + cell;
  });
  return cells.join('  ').trimEnd();
}
