/** `sum seed`: seed, bed and seedlings of a plot. */
import { WAY_VALUES } from '../../agronomy/season.ts';
import { seedNeed } from '../../agronomy/sums/seed-need.ts';
import { isRefusal, refusal } from '../../agronomy/sums/sum.ts';
import { isoDay } from '../../plan/day.ts';
import { withoutMissing } from './given-fields.ts';
import {
  dayIfGiven,
  noneLeft,
  numberIfGiven,
  numberNeeded,
  readOptions,
  wordIfGiven,
} from './read-options.ts';
import type { SumCommand } from './sum-command.ts';

const OPTIONS = {
  area: numberNeeded,
  nursery: wordIfGiven(WAY_VALUES.nursery),
  way: wordIfGiven(WAY_VALUES.establishment),
  germination: numberIfGiven,
  variety: numberIfGiven,
  'age-days': numberIfGiven,
  plant: dayIfGiven,
  'row-cm': numberIfGiven,
  'plant-cm': numberIfGiven,
};

export const SEED: SumCommand = {
  usage: `--area HA (--nursery ${WAY_VALUES.nursery.join('|')} | --way wet-seed) [--germination PERCENT] [--variety DAYS] [--age-days DAYS] [--plant YYYY-MM-DD] [--row-cm CM] [--plant-cm CM]`,
  refusals: {
    'germination-zero': '% germination: such seed gives no seedlings',
    'germination-over': '% germination: more than all seeds cannot sprout',
    'age-zero': 'days is no age of seedlings',
    'age-over': 'days: no nursery is kept so long',
    'not-whole': 'is not a whole number of days',
    'spacing-zero': 'cm is no spacing',
    'nursery-missing': 'is missing (or --way wet-seed)',
    'nursery-unused': 'has no meaning with --way wet-seed, which has no nursery',
  },
  run: (args, book) => {
    const given = readOptions(args, OPTIONS);
    if (isRefusal(given)) return given;
    const { values: said } = given;
    const establishment = said.way ?? 'transplant';
    if (establishment === 'transplant' && said.nursery === undefined)
      return refusal('nursery-missing', '--nursery');
    const ofNursery = (['nursery', 'age-days', 'row-cm', 'plant-cm'] as const).find(
      (name) => said[name] !== undefined,
    );
    if (establishment === 'wet-seed' && ofNursery) return refusal('nursery-unused', `--${ofNursery}`);
    const input = withoutMissing({
      areaHa: said.area,
      germinationPercent: said.germination,
      varietyDays: said.variety,
      ageDays: said['age-days'],
      plantOn: said.plant,
      rowCm: said['row-cm'],
      plantCm: said['plant-cm'],
    });
    const left = noneLeft(given.bare);
    if (left) return left;
    const need = seedNeed(
      { ...input, areaHa: said.area, establishment, nursery: said.nursery ?? 'wet-bed' },
      book,
    );
    if (isRefusal(need)) return need;
    const { nursery, sowOn, ...result } = need;
    const day = sowOn === null ? {} : { sowOn: isoDay(sowOn) };
    return { establishment, ...withoutMissing({ nursery: said.nursery }), ...result, ...nursery, ...day };
  },
};
