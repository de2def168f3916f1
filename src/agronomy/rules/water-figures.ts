/** Figures on water: what soaks a plot, what a canal loses, what a flooded crop drinks, what of the rain it can use. */
import type { Figure } from '../rulebook.ts';
import { figureOf } from './figure-of.ts';
import { fromMemory, judgement, SOAKING } from './sources.ts';

const FAO_56_RICE = fromMemory(
  'FAO-56 Table 12, rice: 1.05 at first, 1.20 in the middle, 0.90 to 0.60 at the end',
);
const EFFECTIVE_RAIN = {
  text: 'FAO Training Manual 3, rain that a crop can use: 0.8 P - 25 of a month of more than 75 mm, else 0.6 P - 10',
  mark: 'second-hand',
} as const;
const slip = (what: string) => judgement(`${what}: more is most likely a slip`);

export const WATER_FIGURES: Readonly<Record<string, Figure>> = {
  'soaking.depth': figureOf(250, 'mm', SOAKING),
  'soaking.depth-after-fallow': figureOf(300, 'mm', SOAKING),
  'soaking.long-fallow': figureOf(75, 'days', SOAKING),
  'canal.efficiency': figureOf(
    0.75,
    'share',
    fromMemory('earthen field channels bring 0.6 to 0.9 of their water to the plot: the middle'),
  ),
  'crop-factor.young': figureOf(1.05, 'times ETo', FAO_56_RICE),
  'crop-factor.full': figureOf(1.2, 'times ETo', FAO_56_RICE),
  'crop-factor.ripening': figureOf(0.9, 'times ETo', FAO_56_RICE),
  'effective-rain.much.share': figureOf(0.8, 'share', EFFECTIVE_RAIN),
  'effective-rain.much.lost': figureOf(25, 'mm a month', EFFECTIVE_RAIN),
  'effective-rain.little.share': figureOf(0.6, 'share', EFFECTIVE_RAIN),
  'effective-rain.little.lost': figureOf(10, 'mm a month', EFFECTIVE_RAIN),
  'hargreaves.factor': figureOf(0.0023, 'per C and root C', fromMemory('FAO-56 eq. 52')),
  'sum.flow.max': figureOf(10_000, 'l/s', slip('no block has a larger canal')),
  'sum.evaporation.max': figureOf(20, 'mm a day', slip('no place loses more')),
  'sum.percolation.max': figureOf(50, 'mm a day', slip('no puddled plot loses more')),
  'sum.month-rain.max': figureOf(3000, 'mm a month', slip('few places ever had more')),
};
