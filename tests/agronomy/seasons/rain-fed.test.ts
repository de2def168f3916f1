/** One season by hand where no canal brings water and nobody knows the usual rain: two-wheel tractor, 120 days, 0.25 ha. */
import { expect, it } from 'vitest';
import { season } from '../../support/seasons.ts';
import { dayOf, followSeason, rowsOf } from './follow-season.ts';

/*
 * Rain counts from the local start date, 1 April. Ploughing waits for 75 mm (from memory: Morris & Zandstra 1979), puddling
 * for 200 mm (Morris & Zandstra 1979, quoted by MMSU Agromet); seed is soaked once the 200 mm have fallen. The rains have
 * begun with 20 mm in one or two days (from memory: Marteau 2009), falsely if 7 dry days or more follow within 30 (Marteau
 * 2009). Where rain is held, the bunds are closed and the plot is ploughed as soon as it can be; from ploughing to planting
 * and from flooding to puddling there is no last day (no canal: the puddling turns the weeds in). All work takes a day.
 * As long as rain is missing, the days are those of a plan in which all of it fell tomorrow.
 */
const TABLE = `
 day    | reported           | in the field                               | in the nursery                                          | plant  | drain  | harvest
 20 Mar | clear              | soak 20 Mar [20 Mar, -]                    | pregerminate 21 Mar [21 Mar, -] 0/200 mm ?              | 12 Apr | 18 Jul | 28 Jul
   Close the bunds today. Rain tomorrow: seed soaked 21 Mar, sown 23 Mar, planted 20 days later; harvest 23 Mar + 127.
 21 Mar | soak               | plough 22 Mar [22 Mar, -] 0/75 mm ?        | pregerminate 22 Mar [22 Mar, -] 0/200 mm ?              | 13 Apr | 19 Jul | 29 Jul
 25 Mar | rain 30 mm         | plough 26 Mar [26 Mar, -] 0/75 mm ?        | pregerminate 26 Mar [26 Mar, -] 0/200 mm ?              | 17 Apr | 23 Jul | 2 Aug
   Before the start date: it does not count.
 3 Apr  | rain 22 mm         | plough 4 Apr [4 Apr, -] 22/75 mm ?         | pregerminate 4 Apr [4 Apr, -] 22/200 mm ?               | 26 Apr | 1 Aug  | 11 Aug
   The rains have begun.
 12 Apr | rain 6 mm          | plough 13 Apr [13 Apr, -] 28/75 mm ?       | pregerminate 13 Apr [13 Apr, -] 28/200 mm ? false start | 5 May  | 10 Aug | 20 Aug
   4 to 11 April were dry, 8 days: a false start.
 20 Apr | rain 25 mm         | plough 21 Apr [21 Apr, -] 53/75 mm ?       | pregerminate 21 Apr [21 Apr, -] 53/200 mm ?             | 13 May | 18 Aug | 28 Aug
   They have begun anew.
 24 Apr | rain 30 mm         | plough 24 Apr [24 Apr, -]                  | pregerminate 25 Apr [25 Apr, -] 83/200 mm ?             | 17 May | 22 Aug | 1 Sep
   83 mm: the soil is soft, plough today. Seed at the earliest tomorrow: sown 27 Apr, planted 17 May.
 26 Apr | plough             | rough-level 27 Apr [26 Apr, 29 Apr]        | pregerminate 27 Apr [27 Apr, -] 83/200 mm ?             | 19 May | 24 Aug | 3 Sep
 27 Apr | rough-level, flood | puddle 19 May [11 May, -] 83/200 mm ?      | pregerminate 28 Apr [28 Apr, -] 83/200 mm ?             | 20 May | 25 Aug | 4 Sep
   Rotting 14 days till 11 May. Seed 28 Apr, sown 30 Apr, planted 20 May: levelled and puddled the day before.
 1 May  | rain 60 mm         | puddle 23 May [15 May, -] 143/200 mm ?     | pregerminate 2 May [2 May, -] 143/200 mm ?              | 24 May | 29 Aug | 8 Sep
   Sown 4 May at the earliest: 16 days on 20 May. Level at most 3 days before, 17 May, puddle at most 2 before that.
 8 May  | rain 65 mm         | puddle 29 May [21 May, -]                  | pregerminate 8 May [8 May, -]                           | 30 May | 4 Sep  | 14 Sep
   208 mm. Seed today, sown 10 May, planted 30 May. At the earliest: planted 26 May, levelled 23 May, puddled 21 May.
 9 May  | pregerminate       | puddle 30 May [22 May, 10 Jun]             | sow-nursery 11 May [11 May, 12 May]                     | 31 May | 5 Sep  | 15 Sep
   Sown by 12 May, 30 days on 11 Jun: levelled and puddled by 10 Jun.
 11 May | sow-nursery        | puddle 30 May [22 May, 9 Jun]              | -                                                       | 31 May | 5 Sep  | 15 Sep
 30 May | puddle, level      | transplant 31 May [31 May, 2 Jun]          | -                                                       | 31 May | 5 Sep  | 15 Sep
 31 May | transplant         | gap-fill 5 Jun [3 Jun, 7 Jun]              | -                                                       | -      | 5 Sep  | 15 Sep
 5 Jun  | gap-fill           | weed 18 Jun [14 Jun, 21 Jun]               | -                                                       | -      | 5 Sep  | 15 Sep
 18 Jun | weed, topdress     | topdress 6 Jul [5 Jul, 7 Jul]              | -                                                       | -      | 5 Sep  | 15 Sep
   55, 56, 57 days after sowing on 11 May.
 6 Jul  | topdress           | weed 8 Jul [6 Jul, 12 Jul]                 | -                                                       | -      | 5 Sep  | 15 Sep
   35 to 42 days after planting are 5 to 12 Jul; today is the 6th.
 8 Jul  | weed               | drain 5 Sep [28 Aug, 15 Sep]               | -                                                       | -      | 5 Sep  | 15 Sep
   Harvest 12 Sep (124 days) to 22 Sep (134), less 15 and 7.
 5 Sep  | drain              | harvest 15 Sep [12 Sep, 20 Sep]            | -                                                       | -      | -      | 15 Sep
 15 Sep | harvest            | rest till 15 Oct                           | -                                                       | -      | -      | -
`;

it('follows the season', () => {
  const way = { ...season().way, water: 'rain-fed' as const };
  const start = season([], { way, areaHa: 0.25, rainFrom: dayOf('1 Apr') });
  expect(followSeason(start, TABLE)).toEqual(rowsOf(TABLE));
});
