/** How long a step of the work takes with the people, animals or machines at hand, and how much work it is in all. */
import { figure, type Rulebook } from '../rulebook.ts';
import type { Way } from '../season.ts';
import { teamsFor, workDays, workFigure } from '../work-days.ts';
import { areaRefusal, notANumber, notWhole } from './check-input.ts';
import { type Founded, founded, type Refusal, refusal } from './sum.ts';

export const WORK_ACTIVITIES = ['plough', 'puddle', 'level', 'transplant'] as const;

export interface WorkInput {
  readonly areaHa: number;
  readonly tillage: Way['tillage'];
  readonly activity: (typeof WORK_ACTIVITIES)[number];
  /** People, pairs of animals or tillers that work at once; the usual gang, or one, where they are not known. */
  readonly teams?: number;
}

/** All of the work, by who does it. */
export type Effort =
  | { readonly teamsAre: 'people'; readonly personDays: number; readonly personHours: number }
  | { readonly teamsAre: 'pairs'; readonly pairDays: number; readonly pairHours: number }
  | { readonly teamsAre: 'tillers'; readonly machineDays: number; readonly machineHours: number };

export interface WorkNeed extends Required<WorkInput>, Founded {
  /** Whole working days with these teams, at least one. */
  readonly days: number;
  readonly effort: Effort;
  /** The days with twice and three times as many teams. */
  readonly withMore: readonly { readonly teams: number; readonly days: number }[];
}

const WITH_MORE = [2, 3];

/**
 * Days and work for one step on a plot: 0.4 ha ploughed with a hoe are 60 person-days, 20 days for three people. Refuses an
 * area that is none, teams of 0 ("teams-zero"), in parts ("not-whole") or over `sum.teams.max` ("teams-over"), and work
 * that a plot without ploughing has not ("no-such-work").
 */
export function workNeed(input: WorkInput, book: Rulebook): WorkNeed | Refusal {
  const refused = areaRefusal(book, input.areaHa) ?? teamsRefusal(input, book);
  if (refused) return refused;
  const { activity, areaHa, tillage } = input;
  const rate = workFigure(book, activity, tillage);
  if (rate === null) return refusal('no-such-work', `${activity} with tillage ${tillage}`);
  const given = input.teams === undefined ? {} : { [activity]: input.teams };
  const teams = teamsFor(book, { teams: given }, activity);
  const daysWith = (count: number) =>
    workDays(book, { areaHa, way: { tillage }, teams: { [activity]: count } }, activity);
  const who = rate.endsWith(`.${tillage}`) ? WHO[tillage] : 'people';
  const gang = `gang.${activity}`;
  const figures = [
    rate,
    `work.hours.${who}`,
    ...(input.teams === undefined && book.figures[gang] ? [gang] : []),
  ];
  return {
    activity,
    areaHa,
    tillage,
    teams,
    days: daysWith(teams),
    effort: effortOf(who, areaHa * figure(book, rate), figure(book, `work.hours.${who}`)),
    withMore: WITH_MORE.map((times) => ({ teams: times * teams, days: daysWith(times * teams) })),
    ...founded(book, figures),
  };
}

type Who = 'people' | 'animals' | 'two-wheel';

const WHO: Readonly<Record<Way['tillage'], Who>> = {
  hoe: 'people',
  animals: 'animals',
  'two-wheel': 'two-wheel',
  none: 'people',
};

function effortOf(who: Who, days: number, hoursADay: number): Effort {
  const hours = days * hoursADay;
  switch (who) {
    case 'people':
      return { teamsAre: 'people', personDays: days, personHours: hours };
    case 'animals':
      return { teamsAre: 'pairs', pairDays: days, pairHours: hours };
    case 'two-wheel':
      return { teamsAre: 'tillers', machineDays: days, machineHours: hours };
  }
}

function teamsRefusal({ teams }: WorkInput, book: Rulebook): Refusal | null {
  if (teams === undefined) return null;
  if (teams <= 0) return refusal('teams-zero', teams);
  if (teams > figure(book, 'sum.teams.max')) return refusal('teams-over', teams);
  return notANumber(teams) ?? notWhole(teams);
}
