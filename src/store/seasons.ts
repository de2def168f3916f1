/** Choices about one season that a grower makes by text. */
import { changedSeason, type SeasonChange, type SeasonReset } from '../agronomy/season.ts';
import { type Day, isoDay } from '../plan/day.ts';
import type { Executor } from './ready-query.ts';

/** Choices that the scheme file knows nothing of, kept as one piece of JSON. */
export type SeasonChoices = Omit<SeasonChange, 'way' | 'varietyDays'>;

/** Changes what is named, takes away what is null, and leaves the rest; a season that is not there changes nothing. */
export async function changeSeason(db: Executor, seasonId: string, change: SeasonReset): Promise<void> {
  const { way, varietyDays, ...choices } = change;
  const season = db.selectFrom('seasons').select('choices').where('id', '=', seasonId);
  const row = await season.executeTakeFirst();
  if (row === undefined) return;
  const columns = {
    choices: JSON.stringify(changedSeason(JSON.parse(row.choices) as SeasonChoices, choices)),
    ...(way == null ? {} : { way: JSON.stringify(way) }),
    ...(varietyDays == null ? {} : { variety_days: varietyDays }),
  };
  await db.updateTable('seasons').set(columns).where('id', '=', seasonId).execute();
}

/** Notes the day on which these seasons were first planned, where none is noted. */
export async function notePlanned(db: Executor, seasonIds: readonly string[], today: Day): Promise<void> {
  if (seasonIds.length === 0) return;
  const seasons = db.updateTable('seasons').set({ planned_on: isoDay(today) });
  await seasons.where('id', 'in', seasonIds).where('planned_on', 'is', null).execute();
}
