/** `sum phases`: panicle initiation, flowering, drain, harvest and birds of one crop, by the plan that its days give. */
import { planPlot } from '../../agronomy/plan-plot.ts';
import { readPlotFile } from '../../agronomy/plot-file.ts';
import { figure } from '../../agronomy/rulebook.ts';
import { WAY_VALUES } from '../../agronomy/season.ts';
import { varietyRefusal } from '../../agronomy/sums/check-input.ts';
import { phasesOf } from '../../agronomy/sums/phases.ts';
import { isRefusal, type Refusal, refusal } from '../../agronomy/sums/sum.ts';
import { type Day, isoDay } from '../../plan/day.ts';
import {
  dayIfGiven,
  dayNeeded,
  type Given,
  noneLeft,
  numberNeeded,
  readOptions,
  wordIfGiven,
} from './read-options.ts';
import type { SumCommand } from './sum-command.ts';

const OPTIONS = {
  variety: numberNeeded,
  sown: dayNeeded,
  planted: dayIfGiven,
  way: wordIfGiven(WAY_VALUES.establishment),
  ripens: wordIfGiven(WAY_VALUES.ripens),
  harvest: dayIfGiven,
};
type Said = Given<typeof OPTIONS>['values'];

export const PHASES: SumCommand = {
  usage: `--variety DAYS --sown YYYY-MM-DD [--planted YYYY-MM-DD] [--way ${WAY_VALUES.establishment.join('|')}] [--ripens ${WAY_VALUES.ripens.join('|')} [--harvest YYYY-MM-DD]]`,
  refusals: {
    'planted-unused': 'has no meaning with --way wet-seed: such seed is sown in the field',
    'planted-early': 'is not after the sowing',
    'planted-late': 'is too long after the sowing: no nursery is kept so long',
    'harvest-unused': 'has no meaning without --ripens by-local-date',
    'harvest-early': 'is not after the sowing and planting',
    'plot-unreadable': 'cannot be',
  },
  run: (args, book) => {
    const given = readOptions(args, OPTIONS);
    if (isRefusal(given)) return given;
    const said = given.values;
    const longest = figure(book, 'seedling-age.longest');
    const refused = noneLeft(given.bare) ?? varietyRefusal(said.variety) ?? daysRefusal(said, longest);
    if (refused) return refused;
    const plot = readPlotFile(plotOf(said));
    if (!plot.ok) return refusal('plot-unreadable', plot.mistakes.join('; '));
    const { season, today } = plot;
    const { phases, ...rest } = phasesOf(season, planPlot(season, book, today), book);
    const iso = (day: Day | null | undefined) => (day == null ? null : isoDay(day));
    return {
      varietyDays: season.varietyDays,
      establishment: season.way.establishment,
      ripens: season.way.ripens,
      sownOn: iso(said.sown),
      plantedOn: iso(said.planted),
      panicleOn: iso(phases?.panicleOn),
      floweringOn: iso(phases?.floweringOn),
      drainOn: iso(phases?.drainOn),
      harvestOn: iso(phases?.harvestOn),
      birdsFrom: iso(phases?.birds?.from),
      birdsTo: iso(phases?.birds?.to),
      ...rest,
    };
  },
};

function daysRefusal({ sown, planted, way, ripens, harvest }: Said, longest: number): Refusal | null {
  if (planted !== undefined && way === 'wet-seed') return refusal('planted-unused', '--planted');
  if (planted !== undefined && planted <= sown) return refusal('planted-early', isoDay(planted));
  if (planted !== undefined && planted > sown + longest) return refusal('planted-late', isoDay(planted));
  if (harvest !== undefined && ripens !== 'by-local-date') return refusal('harvest-unused', '--harvest');
  const last = planted ?? sown;
  return harvest !== undefined && harvest <= last ? refusal('harvest-early', isoDay(harvest)) : null;
}

/** A plot small enough that every step takes a day, as it stands on the last day that is told. */
function plotOf({ variety, sown, planted, way = 'transplant', ripens = 'by-days', harvest }: Said) {
  const sowing = way === 'transplant' ? 'sow-nursery' : 'sow-direct';
  return {
    today: isoDay(planted ?? sown),
    way: { tillage: 'two-wheel', establishment: way, ripens },
    areaHa: 0.01,
    varietyDays: variety,
    ...(harvest !== undefined && { harvestOn: isoDay(harvest) }),
    reports: [
      { activity: sowing, on: isoDay(sown) },
      ...(planted === undefined ? [] : [{ activity: 'transplant', on: isoDay(planted) }]),
    ],
  };
}
