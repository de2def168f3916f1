/** Figures of the field sums on levelling, work and the crop's phases, and the bounds beyond which a number is a slip. */
import type { Figure } from '../rulebook.ts';
import { figureOf } from './figure-of.ts';
import { COMMON, fromMemory, IRRI_PHASES, judgement, published, YOSHIDA } from './sources.ts';

const SLIP = (what: string) => judgement(`${what}: more is most likely a slip`);

export const SUM_FIGURES: Readonly<Record<string, Figure>> = {
  'sum.area.max': figureOf(100, 'ha', SLIP('no single plot is larger')),
  'sum.spots.least': figureOf(5, 'spots', judgement('four sides and the middle: fewer do not show a plot')),
  'sum.spot-depth.max': figureOf(100, 'cm', SLIP('no bunded plot stands so deep')),
  'sum.teams.max': figureOf(1000, 'teams', SLIP('no plot has room for more at once')),
  'level.tolerance': figureOf(1, 'cm', judgement('a stick in the mud is read no better than to 1 cm')),
  'level.barrow': figureOf(60, 'litres', COMMON),
  'work.hours.people': figureOf(
    7,
    'hours a day',
    judgement('the day in which the hours of the sources are counted'),
  ),
  'work.hours.animals': figureOf(
    4.5,
    'hours a day',
    published('oxen work 4-5 h a day (Uganda 4.3, Nepal 5)'),
  ),
  'work.hours.two-wheel': figureOf(7, 'hours a day', judgement('as long as the one who walks behind it')),
  'flowering-before-maturity': figureOf(30, 'days', IRRI_PHASES, YOSHIDA),
  'milk-after-flowering': figureOf(
    7,
    'days',
    fromMemory('grain is milky from the second week after flowering'),
    published(
      'Sabah, Department of Agriculture, on munias: birds are kept off from the milk stage to harvest, under 30 days',
    ),
  ),
};
