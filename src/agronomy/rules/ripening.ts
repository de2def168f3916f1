/** Rules of a crop that ripens by a local date, not by its days: varieties that flower by day length, cool seasons. */
import type { Rule } from '../rulebook.ts';
import { published, YOSHIDA } from './sources.ts';

const MISSED = { rank: 3, name: 'feed-missed', text: 'the feed misses its moment' };

export const BY_LOCAL_DATE: readonly Rule[] = [
  {
    name: 'topdress-by-date',
    from: { activity: 'topdress', at: 'start', round: 2 },
    to: { activity: 'harvest', at: 'start' },
    lo: { of: 'panicle-to-harvest', plus: 5 },
    aim: { of: 'panicle-to-harvest', plus: 6 },
    hi: { of: 'panicle-to-harvest', plus: 7 },
    strength: 'should',
    costLo: MISSED,
    costHi: MISSED,
    whileOpen: true,
    when: { ripens: ['by-local-date'] },
    sources: [YOSHIDA, published('Masagana 99 box, PIDS DPS 05-14: 5-7 days before panicle initiation')],
  },
];
