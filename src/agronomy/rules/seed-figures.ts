/** Figures on seed: how much is sown, on how large a bed, how it is tested, and how seedlings are set. */
import type { Figure } from '../rulebook.ts';
import { figureOf } from './figure-of.ts';
import { judgement, PHILRICE_TRANSPLANT, published } from './sources.ts';

const WET_BED = published('IRRI, wet-bed nursery: 40 kg/ha');
const DRY_BED = published('IRRI, dry-bed nursery: 60-80 kg/ha');
const MAT = published('IRRI, mat nursery: 18-25 kg/ha');
const RKMP_WET_SEED = published('RKMP, wet direct seeding: around 80 kg/ha');
const SRI_LANKA_WET_SEED = published(
  'Dept of Agriculture Sri Lanka, direct sowing: about 100 kg/ha of medium grain, 75-80 of small',
);
const TENTH = published('IRRI: nursery of 1/10 of the field');
const FACT_SHEET = published('IRRI fact sheet, germination test');

export const SEED_FIGURES: Readonly<Record<string, Figure>> = {
  'seed.rate.wet-bed.min': figureOf(40, 'kg/ha', WET_BED),
  'seed.rate.wet-bed.max': figureOf(40, 'kg/ha', WET_BED),
  'seed.rate.dry-bed.min': figureOf(60, 'kg/ha', DRY_BED),
  'seed.rate.dry-bed.max': figureOf(80, 'kg/ha', DRY_BED),
  'seed.rate.mat.min': figureOf(18, 'kg/ha', MAT),
  'seed.rate.mat.max': figureOf(25, 'kg/ha', MAT),
  'seed.rate.wet-seed.min': figureOf(80, 'kg/ha', RKMP_WET_SEED, SRI_LANKA_WET_SEED),
  'seed.rate.wet-seed.max': figureOf(100, 'kg/ha', SRI_LANKA_WET_SEED),
  'seed.rate-germination': figureOf(80, '%', published('IRRI: seed rates are for seed of which 80% sprouts')),
  'germination.least': figureOf(
    60,
    '%',
    judgement('seed of which fewer sprout is worth no bed: get other seed'),
  ),
  'germination.lots': figureOf(3, 'lots', FACT_SHEET),
  'germination.lot': figureOf(100, 'seeds', FACT_SHEET),
  'germination.seeds.least': figureOf(
    50,
    'seeds',
    judgement('of fewer, one time in twenty chance alone moves the result by more than 11 in 100'),
  ),
  'nursery.wet-bed': figureOf(1000, 'm2/ha', TENTH),
  'nursery.dry-bed': figureOf(1000, 'm2/ha', TENTH),
  'nursery.mat': figureOf(100, 'm2/ha', published('IRRI, mat nursery: 100 m2/ha')),
  'spacing.row': figureOf(20, 'cm', PHILRICE_TRANSPLANT),
  'spacing.plant': figureOf(20, 'cm', PHILRICE_TRANSPLANT),
  'seedlings.hill': figureOf(
    2,
    'seedlings a hill',
    published('PhilRice/PinoyRice, how to transplant: 2-3 of inbred rice; the lower number is taken'),
  ),
  'seedling-age.longest': figureOf(120, 'days', judgement('no nursery is kept longer, however cold')),
};
