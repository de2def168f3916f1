/** Reminders waiting for their day. Every new plan replaces the unsent ones of its season; sent ones stay as a record. */
import type { Day } from '../plan/day.ts';
import { isoDay } from '../plan/day.ts';
import type { Reminder } from '../talk/effect.ts';
import { type Executor, readyQuery } from './ready-query.ts';
import { dayOfColumn } from './span-columns.ts';
import type { RemindersTable } from './tables.ts';

const deleteUnsent = readyQuery((db, at: { seasonId: string }) =>
  db.deleteFrom('reminders').where('season_id', '=', at.seasonId).where('sent', '=', 0),
);

const insertReminder = readyQuery((db, row: RemindersTable) =>
  db
    .insertInto('reminders')
    .values({
      scheme_id: row.scheme_id,
      season_id: row.season_id,
      activity: row.activity,
      why: row.why,
      due_on: row.due_on,
      look_on: row.look_on,
      sent: row.sent,
    })
    .onConflict((on) => on.columns(['season_id', 'activity', 'why', 'due_on']).doNothing()),
);

/** Starts at the index of unsent rows, so that the cost follows what is due. */
const selectOwners = readyQuery((db, at: { schemeId: string; today: string }) =>
  db
    .selectFrom('reminders')
    .innerJoin('seasons', 'seasons.id', 'reminders.season_id')
    .innerJoin('plots', 'plots.id', 'seasons.plot_id')
    .select('plots.owner_id')
    .distinct()
    .where('reminders.scheme_id', '=', at.schemeId)
    .where('reminders.sent', '=', 0)
    .where('reminders.look_on', '<=', at.today),
);

/** Starts at the owner's plots: naming no scheme keeps it off the index of everything due. */
const selectDue = readyQuery((db, at: { ownerId: string; today: string }) =>
  db
    .selectFrom('plots')
    .innerJoin('seasons', 'seasons.plot_id', 'plots.id')
    .innerJoin('reminders', 'reminders.season_id', 'seasons.id')
    .selectAll('reminders')
    .where('plots.owner_id', '=', at.ownerId)
    .where('reminders.sent', '=', 0)
    .where('reminders.look_on', '<=', at.today)
    .orderBy('reminders.due_on')
    .orderBy('reminders.season_id')
    .orderBy('reminders.activity')
    .orderBy('reminders.why'),
);

/** Whose season, what and for which day: the name of one reminder. */
interface Name {
  readonly seasonId: string;
  readonly activity: string;
  readonly why: string;
  readonly dueOn: string;
}

const markSent = readyQuery((db, at: Name) =>
  db
    .updateTable('reminders')
    .set({ sent: 1 })
    .where('season_id', '=', at.seasonId)
    .where('activity', '=', at.activity)
    .where('why', '=', at.why)
    .where('due_on', '=', at.dueOn),
);

const deleteRow = readyQuery((db, at: Name) =>
  db
    .deleteFrom('reminders')
    .where('season_id', '=', at.seasonId)
    .where('activity', '=', at.activity)
    .where('why', '=', at.why)
    .where('due_on', '=', at.dueOn),
);

const postponeRow = readyQuery((db, at: Name & { lookOn: string }) =>
  db
    .updateTable('reminders')
    .set({ look_on: at.lookOn })
    .where('season_id', '=', at.seasonId)
    .where('activity', '=', at.activity)
    .where('why', '=', at.why)
    .where('due_on', '=', at.dueOn),
);

function nameOf({ seasonId, activity, why, on }: Reminder): Name {
  return { seasonId, activity, why, dueOn: isoDay(on) };
}

/** Replaces the season's unsent reminders; one that was sent already for the same day is not made again. */
export async function replaceReminders(
  db: Executor,
  schemeId: string,
  seasonId: string,
  reminders: readonly Reminder[],
): Promise<void> {
  await deleteUnsent(db, { seasonId });
  for (const { on, activity, why } of reminders) {
    const dueOn = isoDay(on);
    const what = { season_id: seasonId, activity, why, due_on: dueOn, look_on: dueOn };
    await insertReminder(db, { scheme_id: schemeId, ...what, sent: 0 });
  }
}

/** Ids of the people with a reminder of today or earlier still unsent. */
export async function ownersWithDue(db: Executor, schemeId: string, today: Day): Promise<readonly string[]> {
  return (await selectOwners(db, { schemeId, today: isoDay(today) })).map((row) => row.owner_id);
}

/** The person's unsent reminders of today or earlier, oldest first. */
export async function dueOfOwner(db: Executor, ownerId: string, today: Day): Promise<readonly Reminder[]> {
  return (await selectDue(db, { ownerId, today: isoDay(today) })).map((row) => ({
    on: dayOfColumn(row.due_on) ?? today,
    seasonId: row.season_id,
    activity: row.activity,
    why: row.why as Reminder['why'],
  }));
}

/** Ends these reminders: those that were texted are marked, those that are no longer true vanish. */
export async function endReminders(
  db: Executor,
  due: readonly Reminder[],
  how: 'sent' | 'untrue',
): Promise<void> {
  for (const one of due) await (how === 'sent' ? markSent : deleteRow)(db, nameOf(one));
}

/** Puts these reminders off until the sweep of another day. */
export async function postponeReminders(db: Executor, due: readonly Reminder[], until: Day): Promise<void> {
  for (const one of due) await postponeRow(db, { ...nameOf(one), lookOn: isoDay(until) });
}
