/** One season by hand: irrigated, two-wheel tractor, sown in the field as sprouted seed; 110 days, 0.25 ha. */
import { expect, it } from 'vitest';
import { season } from '../../support/seasons.ts';
import { followSeason, rowsOf } from './follow-season.ts';

/*
 * All work on 0.25 ha takes a day. Sown 1 to 2 days after levelling (from memory), 17 to 35 days after ploughing, best 21
 * (from memory: as before transplanting). No days are lost to transplanting (from memory): second feed 110 - 65 = 45 days
 * after sowing, less 5 to 7: 38, 39, 40; harvest 110 days after sowing, 107 to 117.
 */
const TABLE = `
 day    | reported           | in the field                         | in the nursery                        | plant  | drain | harvest
 1 Mar  | clear              | soak 2 Mar [1 Mar, -]                | pregerminate 24 Mar [17 Mar, -]       | 26 Mar | 4 Jul | 14 Jul
   Soak 2 Mar, plough 5 Mar, sow 26 Mar; seed soaked 2 days before. At the earliest: soak 1 Mar, plough 3 Mar, sow 20 Mar
   (17 days), seed soaked 3 days before. Harvest 26 Mar + 110.
 2 Mar  | soak               | plough 5 Mar [4 Mar, 9 Mar]          | pregerminate 24 Mar [18 Mar, 4 Apr]   | 26 Mar | 4 Jul | 14 Jul
   Plough 4 Mar: sow 21 Mar, soak the seed 18 Mar. Plough 9 Mar: flood 12 Mar, puddle 2 Apr, level 4 Apr, sow 6 Apr, seed 4 Apr.
 5 Mar  | plough             | rough-level 6 Mar [5 Mar, 8 Mar]     | pregerminate 24 Mar [19 Mar, 31 Mar]  | 26 Mar | 4 Jul | 14 Jul
   Sow from 22 Mar (17 days). Latest: flood 8 Mar, puddle 29 Mar, level 31 Mar, sow 2 Apr.
 6 Mar  | rough-level, flood | puddle 25 Mar [20 Mar, 27 Mar]       | pregerminate 24 Mar [19 Mar, 29 Mar]  | 26 Mar | 4 Jul | 14 Jul
   Rotting 14 to 21 days. Latest: puddle 27 Mar, level 29 Mar, sow 31 Mar.
 24 Mar | pregerminate       | puddle 25 Mar [24 Mar, 26 Mar]       | -                                     | 26 Mar | 4 Jul | 14 Jul
   The seed must be sown by 27 Mar: levelled and puddled by 26 Mar.
 25 Mar | puddle, level      | sow-direct 26 Mar [26 Mar, 27 Mar]   | -                                     | 26 Mar | 4 Jul | 14 Jul
 26 Mar | sow-direct         | weed 13 Apr [9 Apr, 16 Apr]          | -                                     | -      | 4 Jul | 14 Jul
 13 Apr | weed, topdress     | weed 3 May [30 Apr, 7 May]           | -                                     | -      | 4 Jul | 14 Jul
   38 days after sowing; the second feed, 39 days after it, is due on 4 May.
 3 May  | weed               | topdress 4 May [3 May, 5 May]        | -                                     | -      | 4 Jul | 14 Jul
 4 May  | topdress           | drain 4 Jul [26 Jun, 14 Jul]         | -                                     | -      | 4 Jul | 14 Jul
   Harvest 11 to 21 Jul, less 15 and 7.
 4 Jul  | drain              | harvest 14 Jul [11 Jul, 19 Jul]      | -                                     | -      | -     | 14 Jul
 14 Jul | harvest            | rest till 13 Aug                     | -                                     | -      | -     | -
`;

it('follows the season', () => {
  const way = { ...season().way, establishment: 'wet-seed' as const };
  expect(followSeason(season([], { way, varietyDays: 110, areaHa: 0.25 }), TABLE)).toEqual(rowsOf(TABLE));
});
