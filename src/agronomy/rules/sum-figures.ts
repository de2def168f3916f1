/** Bounds of what the field sums take: beyond them a number is most likely a slip. */
import type { Figure } from '../rulebook.ts';
import { judgement } from './sources.ts';

export const SUM_FIGURES: Readonly<Record<string, Figure>> = {
  'sum.area.max': {
    value: 100,
    unit: 'ha',
    sources: [judgement('no single plot is larger: more is most likely a slip of the unit')],
  },
};
