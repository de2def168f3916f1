/** One season by hand in a cool place: the nursery takes longer, and the crop ripens by a local date; 120 days, 0.25 ha. */
import { expect, it } from 'vitest';
import { season } from '../../support/seasons.ts';
import { dayOf, followSeason, rowsOf } from './follow-season.ts';

/*
 * Leaves come by the sum of daily mean temperatures (Yoshida 1981 p. 21). The best age of 20 days holds at 25 C
 * (judgement): 500 degree-days; the 40 days in which all must be planted are 1000. February and March have 16 C, April 20 C.
 * Sown on 1 Mar: 31 days of March bring 496, 1 April 20 more: 32 days, best on 2 Apr, from 28 days to 42. 1000: 504 are
 * missing after March, 26 days of April: 57 days. In cool seasons the days of a variety mislead: the crop is cut about
 * 20 July, as usual there. Second feed 65 days before harvest (IRRI phases) and 5 to 7 more: 70, 71, 72 (Masagana 99).
 */
const TABLE = `
 day    | reported           | in the field                      | in the nursery                   | plant | drain  | harvest
 27 Feb | pregerminate       | clear 8 Mar [27 Feb, 25 Mar]      | sow-nursery 1 Mar [1 Mar, 2 Mar] | 2 Apr | 10 Jul | 20 Jul
   Sown 1 Mar, planted 2 Apr; plough 21 days before, 12 Mar, soak 9 Mar, clear 8 Mar. At the latest: sown 2 Mar (30 days at
   16 C are 480, 1 April 20 more: 31 days, up to 41), planted by 12 Apr, ploughed 17 days before on 26 Mar, soaked 24 Mar.
 1 Mar  | sow-nursery        | clear 8 Mar [1 Mar, 24 Mar]       | -                                | 2 Apr | 10 Jul | 20 Jul
   42 days on 12 Apr; ploughed 26 Mar, soaked and cleared 24 Mar.
 8 Mar  | clear              | soak 9 Mar [8 Mar, 24 Mar]        | -                                | 2 Apr | 10 Jul | 20 Jul
 9 Mar  | soak               | plough 12 Mar [11 Mar, 16 Mar]    | -                                | 2 Apr | 10 Jul | 20 Jul
 12 Mar | plough             | rough-level 13 Mar [12 Mar, 15 Mar] | -                              | 2 Apr | 10 Jul | 20 Jul
 13 Mar | rough-level, flood | puddle 1 Apr [27 Mar, 3 Apr]      | -                                | 2 Apr | 10 Jul | 20 Jul
 1 Apr  | puddle, level      | transplant 2 Apr [2 Apr, 4 Apr]   | -                                | 2 Apr | 10 Jul | 20 Jul
 2 Apr  | transplant         | gap-fill 7 Apr [5 Apr, 9 Apr]     | -                                | -     | 10 Jul | 20 Jul
 7 Apr  | gap-fill           | weed 20 Apr [16 Apr, 23 Apr]      | -                                | -     | 10 Jul | 20 Jul
 20 Apr | weed               | topdress 20 Apr [20 Apr, 23 Apr]  | -                                | -     | 10 Jul | 20 Jul
 20 Apr | topdress           | weed 10 May [7 May, 14 May]       | -                                | -     | 10 Jul | 20 Jul
   38 days after 2 Apr; the second feed is due that day, 71 days before 20 Jul.
 10 May | weed               | topdress 10 May [10 May, 11 May]  | -                                | -     | 10 Jul | 20 Jul
   72 to 70 days before 20 Jul are 9 to 11 May.
 10 May | topdress           | drain 10 Jul [2 Jul, 20 Jul]      | -                                | -     | 10 Jul | 20 Jul
   15 and 7 days before 17 and 27 Jul. That the crop is fed moves no harvest.
 10 Jul | drain              | harvest 20 Jul [17 Jul, 25 Jul]   | -                                | -     | -      | 20 Jul
 20 Jul | harvest            | rest till 19 Aug                  | -                                | -     | -      | -
`;

it('follows the season', () => {
  const start = season([], {
    way: { ...season().way, ripens: 'by-local-date' },
    areaHa: 0.25,
    harvestOn: dayOf('20 Jul'),
    climate: {
      meanTemperatureC: [16, 16, 16, 20, 20, 20, 20, 20, 20, 20, 20, 20],
      source: 'made up for this test',
    },
  });
  expect(followSeason(start, TABLE)).toEqual(rowsOf(TABLE));
});
