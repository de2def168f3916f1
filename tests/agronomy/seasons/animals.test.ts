/** One season by hand: animals, work of several days, work begun and work half done; a variety of 110 days, 0.25 ha. */
import { expect, it } from 'vitest';
import { season } from '../../support/seasons.ts';
import { followSeason, rowsOf } from './follow-season.ts';

/*
 * Work of one pair on 0.25 ha: ploughing 12 days/ha (Rickman & Ferrer) -> 3 days; puddling 9 days/ha (J. Agric. Sci. 1997:
 * 94.3 h of ploughing and harrowing at 4.5 h a day are 21 days, less 12), 2.25 -> 3 days; levelling 4 days/ha (from
 * memory) -> 1 day; planting by ten people, 0.86 -> 1 day.
 * Seedlings 16 days, 12 to 26 (IIRR). Second feed 110 + 7 - 65 = 52 days after sowing, less 5 to 7: 45, 46, 47. Harvest
 * 117 days after sowing, 114 to 124.
 */
const TABLE = `
 day    | reported           | in the field                        | in the nursery                       | plant  | drain  | harvest
 1 Mar  | clear              | soak 2 Mar [1 Mar, -]               | pregerminate 10 Mar [1 Mar, -]       | 28 Mar | 27 Jun | 7 Jul
   Soak 2 Mar, plough 5-7 Mar, plant 7 Mar + 21 = 28 Mar. Sown 16 days before, 12 Mar. Harvest 12 Mar + 117 = 7 Jul.
 2 Mar  | soak               | plough 5 Mar [4 Mar, 9 Mar]         | pregerminate 10 Mar [2 Mar, 28 Mar]  | 28 Mar | 27 Jun | 7 Jul
   At the latest: plough 9-11 Mar, flood 14 Mar, puddle 4-6 Apr, level 8 Apr, plant 11 Apr; sown 12 days before, 30 Mar.
 5 Mar  | plough started     | end plough 7 Mar [7 Mar, -]         | pregerminate 10 Mar [5 Mar, -]       | 28 Mar | 27 Jun | 7 Jul
   Three days of work; nobody says when it ends, so nothing after it has a last day.
 7 Mar  | plough half done   | end plough 9 Mar [9 Mar, -]         | pregerminate 12 Mar [7 Mar, -]       | 30 Mar | 29 Jun | 9 Jul
   Half of three days are left, 1.5 -> 2: 8 and 9 Mar. Plant 9 Mar + 21, sow 16 days before on 14 Mar, harvest + 117.
 9 Mar  | plough             | rough-level 10 Mar [9 Mar, 12 Mar]  | pregerminate 12 Mar [9 Mar, 26 Mar]  | 30 Mar | 29 Jun | 9 Jul
   At the latest: flood 12 Mar, puddle 2-4 Apr, level 6 Apr, plant 9 Apr; sown by 28 Mar.
 10 Mar | rough-level, flood | puddle 27 Mar [24 Mar, 31 Mar]      | pregerminate 12 Mar [10 Mar, 24 Mar] | 30 Mar | 29 Jun | 9 Jul
   Plant 30 Mar, level 29 Mar, puddle 27-29 Mar. Rotting 14 to 21 days. Latest: puddle 31 Mar-2 Apr, level 4, plant 7 Apr.
 12 Mar | pregerminate       | puddle 27 Mar [24 Mar, 31 Mar]      | sow-nursery 14 Mar [14 Mar, 15 Mar]  | 30 Mar | 29 Jun | 9 Jul
 14 Mar | sow-nursery        | puddle 27 Mar [24 Mar, 31 Mar]      | -                                    | 30 Mar | 29 Jun | 9 Jul
   Seedlings of 16 days on 30 Mar.
 27 Mar | puddle started     | end puddle 29 Mar [29 Mar, 8 Apr]   | -                                    | 30 Mar | 29 Jun | 9 Jul
   Seedlings have 26 days on 9 Apr: level and end of puddling by 8 Apr.
 28 Mar | puddle half done   | end puddle 30 Mar [30 Mar, 8 Apr]   | -                                    | 31 Mar | 29 Jun | 9 Jul
   1.5 -> 2 days are left, 29 and 30 Mar; level on the 30th, plant a day later. The harvest hangs on the sowing alone.
 30 Mar | puddle, level      | transplant 31 Mar [31 Mar, 2 Apr]   | -                                    | 31 Mar | 29 Jun | 9 Jul
 31 Mar | transplant         | gap-fill 5 Apr [3 Apr, 7 Apr]       | -                                    | -      | 29 Jun | 9 Jul
 5 Apr  | gap-fill           | weed 18 Apr [14 Apr, 21 Apr]        | -                                    | -      | 29 Jun | 9 Jul
 18 Apr | weed, topdress     | topdress 29 Apr [28 Apr, 30 Apr]    | -                                    | -      | 29 Jun | 9 Jul
   45, 46 and 47 days after sowing on 14 Mar.
 29 Apr | topdress           | weed 8 May [5 May, 12 May]          | -                                    | -      | 29 Jun | 9 Jul
   35, 38 and 42 days after planting on 31 Mar.
 8 May  | weed               | drain 29 Jun [21 Jun, 9 Jul]        | -                                    | -      | 29 Jun | 9 Jul
   Harvest 6 Jul (114 days) to 16 Jul (124), less 15 and 7.
 29 Jun | drain              | harvest 9 Jul [6 Jul, 14 Jul]       | -                                    | -      | -      | 9 Jul
   15 days after draining: 14 Jul.
 9 Jul  | harvest            | rest till 8 Aug                     | -                                    | -      | -      | -
`;

it('follows the season', () => {
  const way = { ...season().way, tillage: 'animals' as const };
  expect(followSeason(season([], { way, varietyDays: 110, areaHa: 0.25 }), TABLE)).toEqual(rowsOf(TABLE));
});
