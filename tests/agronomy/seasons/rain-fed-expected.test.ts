/** One season by hand where no canal brings water and the usual rain is known: two-wheel tractor, 120 days, 0.25 ha. */
import { expect, it } from 'vitest';
import { season } from '../../support/seasons.ts';
import { followSeason, rowsOf } from './follow-season.ts';

/*
 * The usual rain: April 60 mm, 2 a day; May 155 mm, 5 a day; June 300 mm, 10 a day. Ploughing waits for 75 mm (from memory:
 * Morris & Zandstra 1979), puddling for 200 mm (Morris & Zandstra 1979, quoted by MMSU Agromet). As the day of the 200 mm
 * can be expected, seed waits for no more than 75 mm: rains that have begun. What is missing comes from tomorrow on.
 */
const TABLE = `
 day    | reported           | in the field                              | in the nursery                               | plant  | drain  | harvest
 1 Apr  | clear              | soak 1 Apr [1 Apr, -]                     | pregerminate 8 May [4 May, -] 0/75 mm        | 30 May | 4 Sep  | 14 Sep
   2-30 Apr bring 58 mm, 1-4 May 20: 75 mm on 4 May. The 200 mm: 142 more in May, 28.4 days: 29 May. Puddle and level 29
   May, plant 30 May: later than plough 4 May + 21. Sown 10 May, seed soaked 8 May; harvest 10 May + 127.
 2 Apr  | soak               | plough 4 May [4 May, -] 0/75 mm           | pregerminate 8 May [4 May, -] 0/75 mm        | 30 May | 4 Sep  | 14 Sep
   From tomorrow 56 mm in April and 20 in May.
 20 Apr | rain 45 mm         | plough 2 May [2 May, -] 45/75 mm          | pregerminate 6 May [2 May, -] 45/75 mm       | 28 May | 2 Sep  | 12 Sep
   30 mm are missing: 20 in April, 10 on 1-2 May. To 200: 155, less 20, 27 days of May. Puddle 27 May, plant 28 May.
 26 Apr | rain 32 mm         | plough 26 Apr [26 Apr, -]                 | pregerminate 2 May [26 Apr, -]               | 24 May | 29 Aug | 8 Sep
   77 mm. To 200: 123, 8 in April, 115 in 23 days of May. Plant 24 May, sow 4 May.
 28 Apr | plough             | rough-level 29 Apr [28 Apr, 1 May]        | pregerminate 3 May [28 Apr, -]               | 25 May | 30 Aug | 9 Sep
   No rain since: 123, 4 in April, 119 in 23.8 days of May: puddle 24 May.
 29 Apr | rough-level, flood | puddle 25 May [25 May, -] 77/200 mm       | pregerminate 4 May [29 Apr, -]               | 26 May | 31 Aug | 10 Sep
   123, 2 in April, 121 in 24.2 days of May: 25 May, later than 14 days of rotting.
 3 May  | rain 48 mm         | puddle 24 May [18 May, -] 125/200 mm      | pregerminate 3 May [3 May, -]                | 25 May | 30 Aug | 9 Sep
   75 mm are missing: 15 days, 18 May. Seed soaked today at the earliest, sown 5 May, planted 25 May at the best age.
 4 May  | pregerminate       | puddle 25 May [19 May, 5 Jun] 125/200 mm  | sow-nursery 6 May [6 May, 7 May]             | 26 May | 31 Aug | 10 Sep
   Sown by 7 May, 30 days on 6 Jun: puddled by 5 Jun.
 6 May  | sow-nursery        | puddle 25 May [21 May, 4 Jun] 125/200 mm  | -                                            | 26 May | 31 Aug | 10 Sep
   15 days of rain from tomorrow: 21 May.
 18 May | rain 80 mm         | puddle 25 May [18 May, 4 Jun]             | -                                            | 26 May | 31 Aug | 10 Sep
   205 mm. Planted 22 May at the earliest (16 days), so puddled from 17 May; today is the 18th.
 25 May | puddle, level      | transplant 26 May [26 May, 28 May]        | -                                            | 26 May | 31 Aug | 10 Sep
 26 May | transplant         | gap-fill 31 May [29 May, 2 Jun]           | -                                            | -      | 31 Aug | 10 Sep
 31 May | gap-fill           | weed 13 Jun [9 Jun, 16 Jun]               | -                                            | -      | 31 Aug | 10 Sep
 13 Jun | weed, topdress     | topdress 1 Jul [30 Jun, 2 Jul]            | -                                            | -      | 31 Aug | 10 Sep
   55, 56, 57 days after sowing on 6 May.
 1 Jul  | topdress           | weed 3 Jul [1 Jul, 7 Jul]                 | -                                            | -      | 31 Aug | 10 Sep
 3 Jul  | weed               | drain 31 Aug [23 Aug, 10 Sep]             | -                                            | -      | 31 Aug | 10 Sep
   Harvest 7 Sep (124 days) to 17 Sep (134), less 15 and 7.
 31 Aug | drain              | harvest 10 Sep [7 Sep, 15 Sep]            | -                                            | -      | -      | 10 Sep
 10 Sep | harvest            | rest till 10 Oct                          | -                                            | -      | -      | -
`;

it('follows the season', () => {
  const way = { ...season().way, water: 'rain-fed' as const };
  const climate = { rainMm: [0, 0, 0, 60, 155, 300, 0, 0, 0, 0, 0, 0], source: 'made up for this test' };
  expect(followSeason(season([], { way, areaHa: 0.25, climate }), TABLE)).toEqual(rowsOf(TABLE));
});
