/** One season by hand: irrigated, two-wheel tractor, transplanted from a wet bed, a variety of 120 days, 0.4 ha. */
import { expect, it } from 'vitest';
import { season } from '../../support/seasons.ts';
import { followSeason, rowsOf } from './follow-season.ts';

/*
 * Work on 0.4 ha: ploughing 1 day/ha (Rickman & Ferrer) -> 1 day; puddling 27.4 h/ha at 7 h (Kumar et al. 2015),
 * 1.57 -> 2 days; levelling 2 days/ha (from memory), 0.8 -> 1 day; planting 240 h/ha at 7 h by ten people, 1.37 -> 2 days.
 * Seedlings 20 days, 16 to 30 (IIRR). Second feed 120 + 7 - 65 = 62 days after sowing, less 5 to 7 (IRRI; Masagana 99):
 * 55, 56, 57. Harvest 127 days after sowing, 124 to 134 (Yoshida).
 */
const TABLE = `
 day    | reported                        | in the field                      | in the nursery                     | plant  | drain | harvest
 1 Mar  | -                               | clear 1 Mar [1 Mar, -]            | pregerminate 4 Mar [1 Mar, -]      | 26 Mar | 1 Jul | 11 Jul
   Best days: soak 2 Mar (clear + 1), plough 5 Mar (+ 3), plant 26 Mar (+ 21): later than flood 6 Mar, 14 days of rotting,
   puddle 20-21 Mar, level 21 Mar, plant 22 Mar. Sown 20 days before planting, 6 Mar; seed soaked 2 days before that.
   Harvest 6 Mar + 127 = 11 Jul, drained 10 days before.
 1 Mar  | clear                           | soak 2 Mar [1 Mar, -]             | pregerminate 4 Mar [1 Mar, -]      | 26 Mar | 1 Jul | 11 Jul
   Soak on the day of clearing at the earliest; nothing hurries it yet.
 2 Mar  | soak                            | plough 5 Mar [4 Mar, 9 Mar]       | pregerminate 4 Mar [2 Mar, 21 Mar] | 26 Mar | 1 Jul | 11 Jul
   Plough 2 to 7 days after soaking. At the latest: plough 9 Mar, flood 12 Mar, puddle 2-3 Apr (+ 21), level 5 Apr (+ 2),
   plant 8 Apr (+ 3); seedlings of at least 16 days are sown by 23 Mar, the seed soaked by 21 Mar.
 4 Mar  | pregerminate                    | plough 5 Mar [4 Mar, 9 Mar]       | sow-nursery 6 Mar [6 Mar, 7 Mar]   | 26 Mar | 1 Jul | 11 Jul
   Sprouted seed is sown 2 to 3 days after it was soaked.
 5 Mar  | plough                          | rough-level 6 Mar [5 Mar, 8 Mar]  | sow-nursery 6 Mar [6 Mar, 7 Mar]   | 26 Mar | 1 Jul | 11 Jul
   Flood at most 3 days after ploughing, 8 Mar, so level roughly by then; both best on the day after.
 6 Mar  | rough-level, flood, sow-nursery | puddle 24 Mar [20 Mar, 27 Mar]    | -                                  | 26 Mar | 1 Jul | 11 Jul
   Sown 6 Mar: 20 days on 26 Mar. Backward: level 25 Mar (1 day to settle), puddle 24-25 Mar. Rotting 14 to 21 days.
 24 Mar | puddle started                  | end puddle 25 Mar [25 Mar, 4 Apr] | -                                  | 26 Mar | 1 Jul | 11 Jul
   Two days of work. At the latest: seedlings of 30 days on 5 Apr, so level and end of puddling on 4 Apr.
 25 Mar | puddle, level                   | transplant 26 Mar [26 Mar, 28 Mar] | -                                 | 26 Mar | 1 Jul | 11 Jul
   Mud settles 1 to 3 days.
 26 Mar | transplant started              | end transplant 27 Mar [27 Mar, 15 Apr] | -                             | -      | 1 Jul | 11 Jul
   Two days of work; all planted before the seedlings have 40 days, 6 Mar + 40 = 15 Apr.
 27 Mar | transplant                      | gap-fill 1 Apr [30 Mar, 3 Apr]    | -                                  | -      | 1 Jul | 11 Jul
   3, 5 and 7 days after planting.
 1 Apr  | gap-fill                        | weed 14 Apr [10 Apr, 17 Apr]      | -                                  | -      | 1 Jul | 11 Jul
   14, 18 and 21 days after 27 Mar; the first feed is due on the same day.
 14 Apr | weed, topdress                  | topdress 1 May [30 Apr, 2 May]    | -                                  | -      | 1 Jul | 11 Jul
   Second feed 55, 56 and 57 days after sowing on 6 Mar; the second weeding comes later.
 1 May  | topdress                        | weed 4 May [1 May, 8 May]         | -                                  | -      | 1 Jul | 11 Jul
   35, 38 and 42 days after 27 Mar.
 4 May  | weed                            | drain 1 Jul [23 Jun, 11 Jul]      | -                                  | -      | 1 Jul | 11 Jul
   Harvest between 8 Jul (124 days) and 18 Jul (134); drained 15 days before the one at the earliest, 7 before the other.
 1 Jul  | drain                           | harvest 11 Jul [8 Jul, 16 Jul]    | -                                  | -      | -     | 11 Jul
   7 to 15 days after draining would be 8 to 16 Jul; ripe from 8 Jul.
 11 Jul | harvest                         | rest till 10 Aug                  | -                                  | -      | -     | -
   30 days.
`;

it('follows the season', () => {
  expect(followSeason(season(), TABLE)).toEqual(rowsOf(TABLE));
});
