/** Seasons by hand of a variety that ripens by a local date, before and after the date is known; 120 days, 0.25 ha. */
import { expect, it } from 'vitest';
import { report, season } from '../../support/seasons.ts';
import { followSeason, rowsOf } from './follow-season.ts';

/*
 * Varieties that flower by day length are cut on a local date, whenever they were sown: nothing that hangs on the harvest
 * has a day before the date is known. Second feed 65 days before harvest (IRRI phases) and 5 to 7 more: 70, 71, 72
 * (Masagana 99). The harvest may be 3 days sooner to 7 later (as for other varieties). All work takes a day.
 */
const TOLD_IN_TIME = `
 day    | reported                        | in the field                       | in the nursery                     | plant  | drain  | harvest
 1 Mar  | clear                           | soak 2 Mar [1 Mar, -]              | pregerminate 4 Mar [1 Mar, -]      | 26 Mar | -      | -
 2 Mar  | soak                            | plough 5 Mar [4 Mar, 9 Mar]        | pregerminate 4 Mar [2 Mar, 20 Mar] | 26 Mar | -      | -
   At the latest: plough 9 Mar, flood 12 Mar, puddle 2 Apr, level 4 Apr, plant 7 Apr; sown 16 days before, 22 Mar.
 4 Mar  | pregerminate                    | plough 5 Mar [4 Mar, 9 Mar]        | sow-nursery 6 Mar [6 Mar, 7 Mar]   | 26 Mar | -      | -
 5 Mar  | plough                          | rough-level 6 Mar [5 Mar, 8 Mar]   | sow-nursery 6 Mar [6 Mar, 7 Mar]   | 26 Mar | -      | -
 6 Mar  | rough-level, flood, sow-nursery | puddle 25 Mar [20 Mar, 27 Mar]     | -                                  | 26 Mar | -      | -
 25 Mar | puddle, level                   | transplant 26 Mar [26 Mar, 28 Mar] | -                                  | 26 Mar | -      | -
 26 Mar | transplant                      | gap-fill 31 Mar [29 Mar, 2 Apr]    | -                                  | -      | -      | -
 31 Mar | gap-fill                        | weed 13 Apr [9 Apr, 16 Apr]        | -                                  | -      | -      | -
 13 Apr | weed, topdress                  | weed 3 May [30 Apr, 7 May]         | -                                  | -      | -      | -
 20 Apr | harvest is on 25 Jul            | weed 3 May [30 Apr, 7 May]         | -                                  | -      | 15 Jul | 25 Jul
 3 May  | weed                            | topdress 15 May [14 May, 16 May]   | -                                  | -      | 15 Jul | 25 Jul
   72, 71 and 70 days before 25 Jul.
 15 May | topdress                        | drain 15 Jul [7 Jul, 25 Jul]       | -                                  | -      | 15 Jul | 25 Jul
   Cut from 22 Jul to 1 Aug, less 15 and 7. That the crop was fed moves no harvest.
 15 Jul | drain                           | harvest 25 Jul [22 Jul, 30 Jul]    | -                                  | -      | -      | 25 Jul
 25 Jul | harvest                         | rest till 24 Aug                   | -                                  | -      | -      | -
`;

/* The same crop, weeded twice, its date told late: the second feed is given on its last day or left out; the harvest stays. */
const TOLD_LATE = `
 day    | reported             | in the field                     | in the nursery | plant | drain  | harvest
 4 May  | -                    | -                                | -              | -     | -      | -
   Nothing that is left has a day.
 16 May | harvest is on 25 Jul | topdress 16 May [16 May, 16 May] | -              | -     | 15 Jul | 25 Jul
   70 days before 25 Jul: its last day.
 17 May | -                    | drain 15 Jul [7 Jul, 25 Jul]     | -              | -     | 15 Jul | 25 Jul
 30 May | topdress             | drain 15 Jul [7 Jul, 25 Jul]     | -              | -     | 15 Jul | 25 Jul
   Fed all the same, 56 days before: the harvest does not wait for it.
`;

const start = season([], { way: { ...season().way, ripens: 'by-local-date' }, areaHa: 0.25 });
const weeded = [
  report('sow-nursery', '2027-03-06'),
  report('transplant', '2027-03-26'),
  report('gap-fill', '2027-03-31'),
  report('weed', '2027-04-13'),
  report('topdress', '2027-04-13'),
  report('weed', '2027-05-03'),
];

it('follows the season when the date is told in time', () => {
  expect(followSeason(start, TOLD_IN_TIME)).toEqual(rowsOf(TOLD_IN_TIME));
});

it('follows the season when the date is told late', () => {
  expect(followSeason({ ...start, reports: weeded }, TOLD_LATE)).toEqual(rowsOf(TOLD_LATE));
});
