/** Two seasons by hand of a variety of 135 days, 0.25 ha, two-wheel tractor: from a dry bed, and from a mat. */
import { expect, it } from 'vitest';
import { season } from '../../support/seasons.ts';
import { followSeason, rowsOf } from './follow-season.ts';

/*
 * Seedlings of a variety of 126 days and more: 25 days, 21 to 35 (IIRR). Second feed 135 + 7 - 65 = 77 days after sowing, less
 * 5 to 7: 70, 71, 72. Harvest 142 days after sowing, 139 to 149. All work takes a day.
 */
const DRY_BED = `
 day    | reported           | in the field                       | in the nursery                      | plant  | drain  | harvest
 1 Mar  | clear              | soak 2 Mar [1 Mar, -]              | pregerminate 2 Mar [1 Mar, -]       | 29 Mar | 14 Jul | 24 Jul
   The nursery takes longest: soak the plot and the seed on 2 Mar, sow 4 Mar, plant 29 Mar. Harvest 4 Mar + 142.
 2 Mar  | soak, pregerminate | plough 8 Mar [4 Mar, 9 Mar]        | sow-nursery 4 Mar [4 Mar, 5 Mar]    | 29 Mar | 14 Jul | 24 Jul
   Plough 21 days before planting, 8 Mar, within 2 to 7 days after soaking.
 4 Mar  | sow-nursery        | plough 8 Mar [4 Mar, 9 Mar]        | -                                   | 29 Mar | 14 Jul | 24 Jul
 8 Mar  | plough             | rough-level 9 Mar [8 Mar, 11 Mar]  | -                                   | 29 Mar | 14 Jul | 24 Jul
 9 Mar  | rough-level, flood | puddle 28 Mar [23 Mar, 30 Mar]     | -                                   | 29 Mar | 14 Jul | 24 Jul
   Rotting 14 to 21 days; puddle and level the day before planting.
 28 Mar | puddle, level      | transplant 29 Mar [29 Mar, 31 Mar] | -                                   | 29 Mar | 14 Jul | 24 Jul
 29 Mar | transplant         | gap-fill 3 Apr [1 Apr, 5 Apr]      | -                                   | -      | 14 Jul | 24 Jul
 3 Apr  | gap-fill           | weed 16 Apr [12 Apr, 19 Apr]       | -                                   | -      | 14 Jul | 24 Jul
 16 Apr | weed, topdress     | weed 6 May [3 May, 10 May]         | -                                   | -      | 14 Jul | 24 Jul
   38 days after planting; the second feed is due on 14 May.
 6 May  | weed               | topdress 14 May [13 May, 15 May]   | -                                   | -      | 14 Jul | 24 Jul
 14 May | topdress           | drain 14 Jul [6 Jul, 24 Jul]       | -                                   | -      | 14 Jul | 24 Jul
   Harvest 21 to 31 Jul, less 15 and 7.
 14 Jul | drain              | harvest 24 Jul [21 Jul, 29 Jul]    | -                                   | -      | -      | 24 Jul
 24 Jul | harvest            | rest till 23 Aug                   | -                                   | -      | -      | -
`;

/* Seedlings on a mat are planted at 20 days at most (IRRI and Tamil Nadu Agricultural University: ready in 15-20): 16 to 30. */
const MAT = `
 day    | reported                        | in the field                       | in the nursery                     | plant  | drain  | harvest
 1 Mar  | clear                           | soak 2 Mar [1 Mar, -]              | pregerminate 4 Mar [1 Mar, -]      | 26 Mar | 16 Jul | 26 Jul
   Soak 2 Mar, plough 5 Mar, plant 26 Mar; sown 20 days before, 6 Mar. Harvest 6 Mar + 142.
 2 Mar  | soak                            | plough 5 Mar [4 Mar, 9 Mar]        | pregerminate 4 Mar [2 Mar, 20 Mar] | 26 Mar | 16 Jul | 26 Jul
   At the latest: plough 9 Mar, flood 12 Mar, puddle 2 Apr, level 4 Apr, plant 7 Apr; sown 16 days before, 22 Mar.
 4 Mar  | pregerminate                    | plough 5 Mar [4 Mar, 9 Mar]        | sow-nursery 6 Mar [6 Mar, 7 Mar]   | 26 Mar | 16 Jul | 26 Jul
 5 Mar  | plough                          | rough-level 6 Mar [5 Mar, 8 Mar]   | sow-nursery 6 Mar [6 Mar, 7 Mar]   | 26 Mar | 16 Jul | 26 Jul
 6 Mar  | rough-level, flood, sow-nursery | puddle 25 Mar [20 Mar, 27 Mar]     | -                                  | 26 Mar | 16 Jul | 26 Jul
 25 Mar | puddle, level                   | transplant 26 Mar [26 Mar, 28 Mar] | -                                  | 26 Mar | 16 Jul | 26 Jul
 26 Mar | transplant                      | gap-fill 31 Mar [29 Mar, 2 Apr]    | -                                  | -      | 16 Jul | 26 Jul
 31 Mar | gap-fill                        | weed 13 Apr [9 Apr, 16 Apr]        | -                                  | -      | 16 Jul | 26 Jul
 13 Apr | weed, topdress                  | weed 3 May [30 Apr, 7 May]         | -                                  | -      | 16 Jul | 26 Jul
 3 May  | weed                            | topdress 16 May [15 May, 17 May]   | -                                  | -      | 16 Jul | 26 Jul
   6 Mar + 70, 71, 72.
 16 May | topdress                        | drain 16 Jul [8 Jul, 26 Jul]       | -                                  | -      | 16 Jul | 26 Jul
 16 Jul | drain                           | harvest 26 Jul [23 Jul, 31 Jul]    | -                                  | -      | -      | 26 Jul
 26 Jul | harvest                         | rest till 25 Aug                   | -                                  | -      | -      | -
`;

const grown = (nursery: 'dry-bed' | 'mat') =>
  season([], { way: { ...season().way, nursery }, varietyDays: 135, areaHa: 0.25 });

it('follows the season from a dry bed', () => {
  expect(followSeason(grown('dry-bed'), DRY_BED)).toEqual(rowsOf(DRY_BED));
});

it('follows the season from a mat', () => {
  expect(followSeason(grown('mat'), MAT)).toEqual(rowsOf(MAT));
});
