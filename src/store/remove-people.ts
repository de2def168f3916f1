/** Plots and growers that leave a scheme: nothing more is texted to them, and what was reported stays. */
import { dropQueued } from './phone-links.ts';
import type { Executor } from './ready-query.ts';

/** Closes the plot's season and deletes its unsent reminders and its appointments; number and label are free again. */
export async function removePlot(db: Executor, plotId: string): Promise<void> {
  const seasons = db.selectFrom('seasons').select('id').where('plot_id', '=', plotId);
  await db.deleteFrom('reminders').where('season_id', 'in', seasons).where('sent', '=', 0).execute();
  await db.deleteFrom('appointments').where('plot_id', '=', plotId).execute();
  await db.updateTable('seasons').set({ open: 0 }).where('plot_id', '=', plotId).execute();
}

/** Removes all plots of the grower and the ties to phones; the name stays with what was reported. */
export async function removeGrower(db: Executor, growerId: string): Promise<void> {
  const plots = await db.selectFrom('plots').select('id').where('owner_id', '=', growerId).execute();
  for (const { id } of plots) await removePlot(db, id);
  const links = db.selectFrom('phone_people').select('phone').where('person_id', '=', growerId);
  const phones = await links.execute();
  await db.deleteFrom('phone_people').where('person_id', '=', growerId).execute();
  for (const { phone } of phones) await dropQueued(db, phone);
}
