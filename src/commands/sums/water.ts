/** `sum water`: what soaks and holds a plot, and how long its block's canal runs for it. */
import { plotWater } from '../../agronomy/sums/plot-water.ts';
import { isRefusal, refusal } from '../../agronomy/sums/sum.ts';
import { withoutMissing } from './given-fields.ts';
import { noneLeft, numberIfGiven, numberNeeded, readOptions } from './read-options.ts';
import type { SumCommand } from './sum-command.ts';

const OPTIONS = {
  area: numberNeeded,
  flow: numberIfGiven,
  efficiency: numberIfGiven,
  eto: numberIfGiven,
  percolation: numberIfGiven,
  'fallow-days': numberIfGiven,
};

/** What a canal may be refused for. */
export const CANAL_REFUSALS = {
  'flow-zero': 'l/s is no flow: it must be more than 0',
  'flow-over': 'l/s: no block has such a canal',
  'efficiency-range': 'is no share of the flow: it must be more than 0 and at most 1',
};

export const WATER: SumCommand = {
  usage:
    '--area HA [--flow L/S [--efficiency SHARE]] [--eto MM_A_DAY] [--percolation MM_A_DAY] [--fallow-days DAYS]',
  refusals: {
    ...CANAL_REFUSALS,
    'fallow-negative': 'days of fallow cannot be',
    'flow-missing': 'is missing: --efficiency is of a flow',
  },
  run: (args, book) => {
    const given = readOptions(args, OPTIONS);
    if (isRefusal(given)) return given;
    const left = noneLeft(given.bare);
    if (left) return left;
    const { area: areaHa, flow: flowLps, efficiency, ...said } = given.values;
    if (flowLps === undefined && efficiency !== undefined) return refusal('flow-missing', '--flow');
    const canal =
      flowLps === undefined ? null : { litresPerSecond: flowLps, ...withoutMissing({ efficiency }) };
    const fallowDays = said['fallow-days'];
    const losses = withoutMissing({ etoMmPerDay: said.eto, percolationMmPerDay: said.percolation });
    const water = plotWater({ areaHa, canal, ...losses, ...withoutMissing({ fallowDays }) }, book);
    if (isRefusal(water)) return water;
    const { canal: fromCanal, ...result } = water;
    return { ...withoutMissing({ flowLps, fallowDays }), ...losses, ...result, fromCanal };
  },
};
