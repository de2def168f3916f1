/** Single figures of the rulebook: seedling ages, depths, work rates. A key ends in what it is for. */
import type { Figure, Source } from '../rulebook.ts';
import {
  COMMON,
  fromMemory,
  IIRR,
  IRRI_PHASES,
  judgement,
  PALAYCHECK,
  PHILRICE_TRANSPLANT,
  published,
  RICKMAN,
  YOSHIDA_SHOCK,
} from './sources.ts';

const figure = (value: number, unit: string, ...sources: readonly Source[]): Figure => ({
  value,
  unit,
  sources,
});

export const FIGURES: Readonly<Record<string, Figure>> = {
  'seedling-age.short': figure(16, 'days', IIRR),
  'seedling-age.medium': figure(20, 'days', IIRR),
  'seedling-age.long': figure(25, 'days', IIRR),
  'variety.short-to': figure(115, 'days', IIRR),
  'variety.medium-to': figure(125, 'days', IIRR),
  'old-seedlings.extra-per-week': figure(1, 'seedlings a hill', PHILRICE_TRANSPLANT),
  'transplant-shock': figure(
    7,
    'days',
    YOSHIDA_SHOCK,
    published('Rashid, IRRI Dhaka 2011: 5-7 days warm, 10-15 cool'),
  ),
  'panicle-before-maturity': figure(65, 'days', IRRI_PHASES),
  'plough-depth.min': figure(10, 'cm', COMMON, PALAYCHECK),
  'plough-depth.max': figure(15, 'cm', COMMON, PALAYCHECK),
  'soak-depth.min': figure(2, 'cm', published('IRRI, wet preparation')),
  'soak-depth.max': figure(5, 'cm', published('IRRI, wet preparation')),
  'flood-depth': figure(10, 'cm', COMMON),
  'level-range.max': figure(5, 'cm', published('PhilRice, PalayCheck Key Check 2')),
  'work.plough.hoe': figure(150, 'person-days/ha', RICKMAN),
  'work.plough.animals': figure(12, 'pair-days/ha', RICKMAN),
  'work.plough.two-wheel': figure(1, 'tiller-days/ha', RICKMAN),
  'work.puddle.hoe': figure(
    45,
    'person-days/ha',
    published('J. Agric. Sci. 1997 abstract: 315.2 h/ha by hand, at 7 h a day'),
  ),
  'work.puddle.animals': figure(
    9,
    'pair-days/ha',
    published(
      'J. Agric. Sci. 1997 abstract: ploughing and harrowing 94.3 h/ha, at 4.5 h a day, less 12 days of ploughing',
    ),
  ),
  'work.puddle.two-wheel': figure(
    27.4 / 7,
    'tiller-days/ha',
    published('Kumar et al. 2015, Indian J. Hill Farming 28(1): 27.4 h/ha, at 7 h a day'),
  ),
  'work.level.hoe': figure(20, 'person-days/ha', fromMemory('hand levelling')),
  'work.level.animals': figure(4, 'pair-days/ha', fromMemory('levelling board behind a pair of animals')),
  'work.level.two-wheel': figure(
    2,
    'tiller-days/ha',
    fromMemory('levelling board behind a two-wheel tractor'),
  ),
  'work.transplant': figure(
    240 / 7,
    'person-days/ha',
    published('six sources, 126-400 person-hours/ha; 240 taken, at 7 h a day'),
  ),
  'gang.transplant': figure(10, 'people', judgement('planting is done by a gang of neighbours: about ten')),
  'variety.usual': figure(
    120,
    'days',
    judgement('taken when a grower does not know: the middle class of the wet-bed table'),
  ),
  'round-apart': figure(
    5,
    'days',
    judgement('weeding or feeding again sooner is most likely the same report twice'),
  ),
  'remind-overdue-later': figure(
    7,
    'days',
    judgement('after three reminders a step that nothing is heard of is asked about weekly'),
  ),
  'remind-overdue-every': figure(3, 'days', judgement('an overdue step is reminded of every third day')),
};
