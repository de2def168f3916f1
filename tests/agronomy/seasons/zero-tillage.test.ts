/** Two seasons by hand without ploughing: transplanted (120 days, 0.4 ha) and sown in the field (110 days, 0.25 ha). */
import { expect, it } from 'vitest';
import { season } from '../../support/seasons.ts';
import { followSeason, rowsOf } from './follow-season.ts';

/*
 * Without ploughing the plot is cleared, flooded a day later, held under water 30 to 60 days and planted (common
 * practice): no soaking, puddling or levelling. Seed is not soaked before the plot is flooded.
 * Planting 0.4 ha takes 2 days. Second feed 55, 56, 57 days after sowing, harvest 127 (124 to 134).
 */
const TRANSPLANTED = `
 day    | reported           | in the field                          | in the nursery                       | plant | drain | harvest
 1 Mar  | clear              | flood 2 Mar [1 Mar, -]                | pregerminate 10 Mar [1 Mar, -]       | 1 Apr | 7 Jul | 17 Jul
   Flood 2 Mar, plant 30 days later, 1 Apr. Sown 20 days before, 12 Mar. Harvest 12 Mar + 127 = 17 Jul.
 2 Mar  | flood              | transplant 1 Apr [1 Apr, 1 May]       | pregerminate 10 Mar [2 Mar, 13 Apr]  | 1 Apr | 7 Jul | 17 Jul
   Held 30 to 60 days. For 1 May seedlings of 16 days are sown on 15 Apr, the seed soaked on 13 Apr.
 10 Mar | pregerminate       | transplant 1 Apr [1 Apr, 12 Apr]      | sow-nursery 12 Mar [12 Mar, 13 Mar]  | 1 Apr | 7 Jul | 17 Jul
   Sown by 13 Mar, seedlings have 30 days on 12 Apr.
 12 Mar | sow-nursery        | transplant 1 Apr [1 Apr, 11 Apr]      | -                                    | 1 Apr | 7 Jul | 17 Jul
 1 Apr  | transplant started | end transplant 2 Apr [2 Apr, 21 Apr]  | -                                    | -     | 7 Jul | 17 Jul
   All planted before 40 days: 12 Mar + 40 = 21 Apr.
 2 Apr  | transplant         | gap-fill 7 Apr [5 Apr, 9 Apr]         | -                                    | -     | 7 Jul | 17 Jul
 7 Apr  | gap-fill           | weed 20 Apr [16 Apr, 23 Apr]          | -                                    | -     | 7 Jul | 17 Jul
 20 Apr | weed, topdress     | topdress 7 May [6 May, 8 May]         | -                                    | -     | 7 Jul | 17 Jul
   12 Mar + 55, 56, 57.
 7 May  | topdress           | weed 10 May [7 May, 14 May]           | -                                    | -     | 7 Jul | 17 Jul
 10 May | weed               | drain 7 Jul [29 Jun, 17 Jul]          | -                                    | -     | 7 Jul | 17 Jul
   Harvest 14 to 24 Jul, less 15 and 7.
 7 Jul  | drain              | harvest 17 Jul [14 Jul, 22 Jul]       | -                                    | -     | -     | 17 Jul
 17 Jul | harvest            | rest till 16 Aug                      | -                                    | -     | -     | -
`;

/*
 * Sown in the field, no days are lost to transplanting (from memory): second feed 110 - 65 = 45 days after sowing, less 5
 * to 7: 38, 39, 40; harvest 110 days after sowing (107 to 117). Weeding and first feed count from sowing (from memory).
 */
const SOWN = `
 day    | reported           | in the field                          | in the nursery                       | plant | drain  | harvest
 1 Mar  | clear              | flood 2 Mar [1 Mar, -]                | pregerminate 30 Mar [28 Mar, -]      | 1 Apr | 10 Jul | 20 Jul
   Flood 2 Mar, sow 1 Apr, soak the seed 2 days before. Flooded on 1 Mar: sown from 31 Mar, soaked 3 days before that.
 2 Mar  | flood              | sow-direct 1 Apr [1 Apr, 1 May]       | pregerminate 30 Mar [29 Mar, 29 Apr] | 1 Apr | 10 Jul | 20 Jul
   Seed is soaked 3 days before 1 Apr at the earliest, 2 days before 1 May at the latest.
 30 Mar | pregerminate       | sow-direct 1 Apr [1 Apr, 2 Apr]       | -                                    | 1 Apr | 10 Jul | 20 Jul
 2 Apr  | sow-direct         | weed 20 Apr [16 Apr, 23 Apr]          | -                                    | -     | 11 Jul | 21 Jul
   Sown a day late: harvest 2 Apr + 110.
 20 Apr | weed, topdress     | weed 10 May [7 May, 14 May]           | -                                    | -     | 11 Jul | 21 Jul
   38 days after sowing; the second feed is due a day later.
 10 May | weed               | topdress 11 May [10 May, 12 May]      | -                                    | -     | 11 Jul | 21 Jul
 11 May | topdress           | drain 11 Jul [3 Jul, 21 Jul]          | -                                    | -     | 11 Jul | 21 Jul
   Harvest 18 to 28 Jul, less 15 and 7.
 11 Jul | drain              | harvest 21 Jul [18 Jul, 26 Jul]       | -                                    | -     | -      | 21 Jul
 21 Jul | harvest            | rest till 20 Aug                      | -                                    | -     | -      | -
`;

const way = { ...season().way, tillage: 'none' as const };

it('follows the transplanted season', () => {
  expect(followSeason(season([], { way }), TRANSPLANTED)).toEqual(rowsOf(TRANSPLANTED));
});

it('follows the season that is sown in the field', () => {
  const start = season([], {
    way: { ...way, establishment: 'wet-seed' },
    varietyDays: 110,
    areaHa: 0.25,
  });
  expect(followSeason(start, SOWN)).toEqual(rowsOf(SOWN));
});
