/** One season by hand: hoes in teams, no work on Fridays and on one market day; a variety of 120 days, 0.1 ha. */
import { expect, it } from 'vitest';
import { season } from '../../support/seasons.ts';
import { dayOf, followSeason, rowsOf } from './follow-season.ts';

/*
 * 1 March 2027 is a Monday; Fridays are 5, 12, 19, 26 March, 2, 9, 16, 23, 30 April, 7, 14 May. Market is on Thu 29 April.
 * Work on 0.1 ha: digging 150 days/ha (Rickman & Ferrer), 15 by three people -> 5 days; puddling 45 days/ha (J. Agric.
 * Sci. 1997: 315.2 h at 7 h), 4.5 by three -> 2 days; levelling 20 days/ha (from memory), 2 by two -> 1 day; planting
 * 240 h/ha at 7 h, 3.4 by two -> 2 days. Days are working days: work pauses on days of rest. Work that would begin on
 * one begins on the next working day, and the last day of a window is a working day.
 */
const TABLE = `
 day    | reported             | in the field                         | in the nursery                       | plant  | drain  | harvest
 6 Mar  | clear                | soak 7 Mar [6 Mar, -]                | pregerminate 14 Mar [6 Mar, -]       | 5 Apr  | 11 Jul | 21 Jul
   Soak Sun 7 Mar, dig Wed 10, Thu 11, Sat 13, Sun 14, Mon 15 Mar; plant 15 Mar + 21 = Mon 5 Apr; sow 20 days before on
   Tue 16 Mar, soak the seed on Sun 14. Harvest 16 Mar + 127 = Wed 21 Jul.
 7 Mar  | soak                 | plough 10 Mar [9 Mar, 14 Mar]        | pregerminate 14 Mar [7 Mar, -]       | 5 Apr  | 11 Jul | 21 Jul
   2, 3 and 7 days after soaking. Over days of rest the end of the digging is open, so the seed has no last day.
 10 Mar | plough started       | end plough 15 Mar [15 Mar, -]        | pregerminate 14 Mar [10 Mar, -]      | 5 Apr  | 11 Jul | 21 Jul
   Five working days from Wed 10 Mar, without Fri 12.
 14 Mar | pregerminate         | end plough 15 Mar [15 Mar, 30 Mar]   | sow-nursery 16 Mar [16 Mar, 17 Mar]  | 5 Apr  | 11 Jul | 21 Jul
   Sown by 17 Mar, seedlings have 30 days on 16 Apr: dug 17 days before, on Tue 30 Mar, at the latest.
 15 Mar | plough               | rough-level 16 Mar [15 Mar, 18 Mar]  | sow-nursery 16 Mar [16 Mar, 17 Mar]  | 5 Apr  | 11 Jul | 21 Jul
 16 Mar | rough-level, flood, sow-nursery | puddle 3 Apr [30 Mar, 6 Apr] | -                                 | 5 Apr  | 11 Jul | 21 Jul
   Plant Mon 5 Apr, level Sun 4 Apr, puddle Sat 3 and Sun 4 Apr. Rotting 14 to 21 days.
 6 Apr  | puddle started       | end puddle 7 Apr [7 Apr, 14 Apr]     | -                                    | 8 Apr  | 11 Jul | 21 Jul
   Begun on the last day. Done Wed 7 Apr, level that day, plant Thu 8 Apr (and Sat 10). Seedlings have 30 days on 15 Apr.
 7 Apr  | puddle               | level 7 Apr [7 Apr, 8 Apr]           | -                                    | 8 Apr  | 11 Jul | 21 Jul
   0 to 2 days after puddling would be till Fri 9 Apr: till Thu 8.
 8 Apr  | level                | transplant 10 Apr [10 Apr, 11 Apr]   | -                                    | 10 Apr | 11 Jul | 21 Jul
   1 to 3 days to settle: 9 to 11 Apr; Fri 9 is a day of rest.
 11 Apr | transplant           | gap-fill 17 Apr [14 Apr, 18 Apr]     | -                                    | -      | 11 Jul | 21 Jul
   3 to 7 days: 14 to 18 Apr; the best, the 5th, is Fri 16 Apr.
 17 Apr | gap-fill             | weed 1 May [25 Apr, 2 May]           | -                                    | -      | 11 Jul | 21 Jul
   14 to 21 days: 25 Apr to 2 May; the best, the 18th, is the market day, and the day after it a Friday.
 1 May  | weed, topdress       | topdress 11 May [10 May, 12 May]     | -                                    | -      | 11 Jul | 21 Jul
   55, 56 and 57 days after sowing on 16 Mar; the weeding of 38 days after planting is due on 19 May.
 11 May | topdress             | weed 19 May [16 May, 23 May]         | -                                    | -      | 11 Jul | 21 Jul
   35, 38 and 42 days after 11 Apr.
 19 May | weed                 | drain 11 Jul [3 Jul, 21 Jul]         | -                                    | -      | 11 Jul | 21 Jul
   Harvest 18 Jul (124 days) to 28 Jul (134), less 15 and 7.
 11 Jul | drain                | harvest 21 Jul [18 Jul, 26 Jul]      | -                                    | -      | -      | 21 Jul
 21 Jul | harvest              | rest till 20 Aug                     | -                                    | -      | -      | -
`;

it('follows the season', () => {
  const start = season([], {
    way: { ...season().way, tillage: 'hoe' },
    areaHa: 0.1,
    teams: { plough: 3, puddle: 3, level: 2, transplant: 2 },
    restDays: { weekdays: [5], days: [dayOf('29 Apr')] },
  });
  expect(followSeason(start, TABLE)).toEqual(rowsOf(TABLE));
});
