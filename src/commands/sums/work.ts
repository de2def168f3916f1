/** `sum work`: how long a step takes with the hands or machines at hand. */
import { WAY_VALUES } from '../../agronomy/season.ts';
import { isRefusal, refusal } from '../../agronomy/sums/sum.ts';
import { WORK_ACTIVITIES, workNeed } from '../../agronomy/sums/work-need.ts';
import { noneLeft, numberIfGiven, numberNeeded, readOptions, wordNeeded } from './read-options.ts';
import type { SumCommand } from './sum-command.ts';

const OPTIONS = {
  area: numberNeeded,
  tillage: wordNeeded(WAY_VALUES.tillage),
  teams: numberIfGiven,
};

export const WORK: SumCommand = {
  usage: `${WORK_ACTIVITIES.join('|')} --area HA --tillage ${WAY_VALUES.tillage.join('|')} [--teams TEAMS]`,
  refusals: {
    'work-unknown': `is no such work: ${WORK_ACTIVITIES.join(', ')}`,
    'work-missing': `is not said: ${WORK_ACTIVITIES.join(', ')}`,
    'teams-zero': 'teams do no work',
    'teams-over': 'teams are too many for one plot',
    'not-whole': 'teams: give a whole number',
    'no-such-work': 'is not done',
  },
  run: (args, book) => {
    const given = readOptions(args, OPTIONS);
    if (isRefusal(given)) return given;
    const [said, ...more] = given.bare;
    if (said === undefined) return refusal('work-missing', 'the work');
    const activity = WORK_ACTIVITIES.find((one) => one === said);
    if (activity === undefined) return refusal('work-unknown', said);
    const left = noneLeft(more);
    if (left) return left;
    const { area: areaHa, tillage, teams } = given.values;
    const need = workNeed({ activity, areaHa, tillage, ...(teams !== undefined && { teams }) }, book);
    if (isRefusal(need)) return need;
    const { effort, ...result } = need;
    return { ...result, ...effort };
  },
};
