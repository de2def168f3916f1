/** `sum month-need`: what a flooded crop needs from the canal in a month. */
import { CROP_STAGES, monthNeed } from '../../agronomy/sums/month-need.ts';
import { isRefusal, refusal } from '../../agronomy/sums/sum.ts';
import { withoutMissing } from './given-fields.ts';
import { noneLeft, numberIfGiven, numberNeeded, readOptions, wordIfGiven } from './read-options.ts';
import type { SumCommand } from './sum-command.ts';

const OPTIONS = {
  area: numberNeeded,
  month: numberNeeded,
  rain: numberNeeded,
  eto: numberIfGiven,
  latitude: numberIfGiven,
  min: numberIfGiven,
  max: numberIfGiven,
  percolation: numberIfGiven,
  stage: wordIfGiven(CROP_STAGES),
};

/** The one month's figure on every place of the year. */
const allYear = (value: number | undefined) =>
  value === undefined ? undefined : Array<number>(12).fill(value);

export const MONTH_NEED: SumCommand = {
  usage: `--area HA --month 1-12 --rain MM [--eto MM_A_DAY | --latitude DEGREES --min C --max C] [--percolation MM_A_DAY] [--stage ${CROP_STAGES.join('|')}]`,
  refusals: {
    'month-range': 'is no month: give 1 to 12',
    'rain-range': 'mm: no month has such rain',
    'temperature-range': 'C: no place of rice is so cold or so hot',
    'temperatures-turned': 'C: the lowest is over the highest',
    'latitude-range': 'degrees: no rice grows there',
    'sun-missing': 'is missing: --latitude, --min and --max go together',
    'eto-twice': 'has no meaning beside --eto',
  },
  run: (args, book) => {
    const given = readOptions(args, OPTIONS);
    if (isRefusal(given)) return given;
    const left = noneLeft(given.bare);
    if (left) return left;
    const { area: areaHa, month, stage, ...said } = given.values;
    const sun = ['latitude', 'min', 'max'] as const;
    const [there] = sun.filter((name) => said[name] !== undefined);
    const lacks = sun.find((name) => said[name] === undefined);
    if (there && said.eto !== undefined) return refusal('eto-twice', `--${there}`);
    if (there && lacks) return refusal('sun-missing', `--${lacks}`);
    const climate = withoutMissing({
      rainMm: allYear(said.rain),
      etoMmPerDay: allYear(said.eto),
      latitude: said.latitude,
      minTemperatureC: allYear(said.min),
      maxTemperatureC: allYear(said.max),
    });
    const more = withoutMissing({ stage, percolationMmPerDay: said.percolation });
    const need = monthNeed({ month, areaHa, climate, ...more }, book);
    if (isRefusal(need)) return need;
    const inputs = withoutMissing({
      latitude: said.latitude,
      minTemperatureC: said.min,
      maxTemperatureC: said.max,
      stage,
    });
    return { ...inputs, ...need };
  },
};
