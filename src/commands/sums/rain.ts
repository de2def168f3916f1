/** `sum rain`: rain of some days in a row. */
import { rainRow } from '../../agronomy/sums/rain-row.ts';
import { isRefusal } from '../../agronomy/sums/sum.ts';
import { withoutMissing } from './given-fields.ts';
import { numberIfGiven, readNumbers, readOptions } from './read-options.ts';
import type { SumCommand } from './sum-command.ts';

const OPTIONS = { eto: numberIfGiven, percolation: numberIfGiven, standing: numberIfGiven };

export const RAIN: SumCommand = {
  usage: 'MM MM ... (a day each) [--eto MM_A_DAY] [--percolation MM_A_DAY] [--standing MM]',
  refusals: {
    'rain-range': 'mm: no day has such rain',
    'standing-range': 'mm cannot stand on a plot: under 0, or over the bunds',
  },
  run: (args, book) => {
    const given = readOptions(args, OPTIONS);
    if (isRefusal(given)) return given;
    const rainsMm = readNumbers(given.bare);
    if (isRefusal(rainsMm)) return rainsMm;
    const { eto: etoMmPerDay, percolation: percolationMmPerDay, standing } = given.values;
    const losses = withoutMissing({ etoMmPerDay, percolationMmPerDay });
    const row = rainRow({ rainsMm, ...losses, ...withoutMissing({ startMm: standing }) }, book);
    return isRefusal(row) ? row : { ...losses, ...withoutMissing({ startMm: standing }), ...row };
  },
};
