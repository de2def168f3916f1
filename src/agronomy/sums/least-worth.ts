/**
 * The least that covering a need with some packs must cost, whatever is bought: a price for each nutrient under which no pack
 * holds more than its cost makes every need worth no more than what covers it. Of all such prices the corners suffice.
 */
import type { Nutrients } from './products.ts';
import { choices, solveEquations } from './small-equations.ts';

const ROUNDING = 1e-9;

/** A need in kg to its least cost; without end for a need that no pack holds anything of. */
export type LeastWorth = (need: Nutrients) => number;

/** The bound for packs that hold so much (kg of each nutrient) and cost so much each. */
export function leastWorth(holds: readonly Nutrients[], costs: readonly number[]): LeastWorth {
  const prices = cornerPrices(holds, costs);
  const lacked = ([0, 1, 2] as const).filter((nutrient) => holds.every((held) => held[nutrient] === 0));
  return (need) => {
    if (lacked.some((nutrient) => need[nutrient] > 0)) return Number.POSITIVE_INFINITY;
    let most = 0;
    for (const price of prices) most = Math.max(most, worth(need, price));
    return most;
  };
}

const worth = (held: Nutrients, price: Nutrients) =>
  held[0] * price[0] + held[1] * price[1] + held[2] * price[2];

/** Prices at which three of the conditions are just met, and none is broken. */
function cornerPrices(holds: readonly Nutrients[], costs: readonly number[]): readonly Nutrients[] {
  const free = [
    { row: [1, 0, 0], right: 0 },
    { row: [0, 1, 0], right: 0 },
    { row: [0, 0, 1], right: 0 },
  ];
  const conditions = [...free, ...holds.map((row, index) => ({ row, right: costs[index] ?? 0 }))];
  return choices(conditions, 3).flatMap((met): Nutrients[] => {
    const found = solveEquations(
      met.map(({ row }) => row),
      met.map(({ right }) => right),
    );
    if (found === null) return [];
    const price: Nutrients = [found[0] ?? 0, found[1] ?? 0, found[2] ?? 0];
    return isAllowed(price, holds, costs) ? [price] : [];
  });
}

function isAllowed(price: Nutrients, holds: readonly Nutrients[], costs: readonly number[]): boolean {
  return (
    price.every((one) => one >= -ROUNDING) &&
    holds.every((held, index) => worth(held, price) <= (costs[index] ?? 0) * (1 + ROUNDING) + ROUNDING)
  );
}
