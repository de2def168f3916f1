/** `sum level`: how level a plot is, from depths of water at spots spread over it. */
import { levelSurvey } from '../../agronomy/sums/level-survey.ts';
import { isRefusal } from '../../agronomy/sums/sum.ts';
import { numberNeeded, readNumbers, readOptions } from './read-options.ts';
import type { SumCommand } from './sum-command.ts';

export const LEVEL: SumCommand = {
  usage: '--area HA DEPTH_CM DEPTH_CM ... (five or more; ground above the water is 0)',
  refusals: {
    'depth-below-zero': 'cm is no depth of water: ground that stands out of it is given as 0',
    'depth-over': 'cm is too deep for a plot',
    'spots-few': 'spots are too few: give five or more, spread over the plot',
  },
  run: (args, book) => {
    const given = readOptions(args, { area: numberNeeded });
    if (isRefusal(given)) return given;
    const depthsCm = readNumbers(given.bare);
    return isRefusal(depthsCm) ? depthsCm : levelSurvey({ areaHa: given.values.area, depthsCm }, book);
  },
};
