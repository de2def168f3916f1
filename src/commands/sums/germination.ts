/** `sum germination`: what a test of germination tells, or with `--bags` how a stock of seed is tested. */
import { germination, germinationTest } from '../../agronomy/sums/germination.ts';
import { isRefusal, refusal } from '../../agronomy/sums/sum.ts';
import { noneLeft, numberIfGiven, readNumbers, readOptions } from './read-options.ts';
import type { SumCommand } from './sum-command.ts';

export const GERMINATION: SumCommand = {
  usage: 'SPROUTED OF (seeds), or --bags BAGS',
  refusals: {
    'numbers-two': 'numbers, but this sum needs two: how many sprouted, and of how many seeds',
    'not-whole': 'is not a count of seeds or bags: give a whole number of 0 or more',
    'seeds-none': 'seeds are no test',
    'seeds-few': 'seeds are too few: of so few, chance tells more than the seed; lay out 100',
    'sprouted-over': 'seeds cannot have sprouted',
    'bags-none': 'bags are no stock of seed',
  },
  run: (args, book) => {
    const given = readOptions(args, { bags: numberIfGiven });
    if (isRefusal(given)) return given;
    if (given.values.bags !== undefined)
      return noneLeft(given.bare) ?? germinationTest(given.values.bags, book);
    const numbers = readNumbers(given.bare);
    if (isRefusal(numbers)) return numbers;
    const [sprouted, of] = numbers;
    if (sprouted === undefined || of === undefined || numbers.length > 2)
      return refusal('numbers-two', numbers.length);
    return germination({ sprouted, of }, book);
  },
};
