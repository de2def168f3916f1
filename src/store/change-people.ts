/** Changes of who grows what where, as agents make them by text or by a file. */
import { freeNumber } from '../scheme/free-number.ts';
import type { NewPlot, PeopleChange } from '../scheme/people-change.ts';
import { bareLabel } from '../scheme/plot-label.ts';
import { type GrowerToAdd, growerOnPhone, numbersOfGrower } from './growers.ts';
import type { MakeId } from './ids.ts';
import { openPlot } from './open-plot.ts';
import { placeAtEnd } from './plots.ts';
import type { Executor } from './ready-query.ts';
import { removeGrower, removePlot } from './remove-people.ts';

/**
 * Makes one change in the caller's transaction. A number that the grower's phones have already gets the next free one, as
 * for those who join. Throws when a plot, a grower or a block is not there (any more), or a label is another plot's: the
 * caller's transaction then takes back what was done of the change.
 */
export async function changePeople(
  db: Executor,
  schemeId: string,
  change: PeopleChange,
  makeId: MakeId,
): Promise<void> {
  switch (change.kind) {
    case 'add-grower':
      await refuseLabels(db, schemeId, change.plots);
      return addGrower(db, schemeId, change, makeId);
    case 'add-plot':
      await mustBeGrower(db, schemeId, change.growerId);
      await refuseLabels(db, schemeId, [change.plot]);
      return addPlots(db, schemeId, change.growerId, [change.plot], makeId);
    case 'move-plot':
      await mustBeOpen(db, schemeId, change.plotId);
      return movePlot(db, schemeId, change.plotId, change.blockId);
    case 'give-plot':
      await mustBeOpen(db, schemeId, change.plotId);
      await mustBeGrower(db, schemeId, change.growerId);
      return givePlot(db, change);
    case 'remove-plot':
      await mustBeOpen(db, schemeId, change.plotId);
      return removePlot(db, change.plotId);
    case 'remove-grower':
      await mustBeGrower(db, schemeId, change.growerId);
      return removeGrower(db, change.growerId);
  }
}

/** Adds a grower with plots, or the plots to the grower of that name who uses the phone; labels are not looked at. */
export async function addGrower(
  db: Executor,
  schemeId: string,
  { plots, ...grower }: GrowerToAdd & { readonly plots: readonly NewPlot[] },
  makeId: MakeId,
): Promise<void> {
  const growerId = await growerOnPhone(db, schemeId, grower, makeId);
  await addPlots(db, schemeId, growerId, plots, makeId);
}

/** Adds plots to a grower; labels are not looked at. Throws when a block is not there. */
export async function addPlots(
  db: Executor,
  schemeId: string,
  growerId: string,
  plots: readonly NewPlot[],
  makeId: MakeId,
): Promise<void> {
  const taken = await numbersOfGrower(db, growerId);
  for (const plot of plots) {
    await mustBeBlock(db, schemeId, plot.blockId);
    const number = freeNumber(plot.number, taken);
    taken.add(number);
    await openPlot(db, schemeId, growerId, { ...plot, number }, makeId);
  }
}

async function movePlot(db: Executor, schemeId: string, plotId: string, blockId: string): Promise<void> {
  await mustBeBlock(db, schemeId, blockId);
  const moved = { block_id: blockId, place: await placeAtEnd(db, blockId) };
  await db.updateTable('plots').set(moved).where('id', '=', plotId).execute();
  // Its turns were those of another canal and team.
  await db.deleteFrom('appointments').where('plot_id', '=', plotId).execute();
}

async function givePlot(
  db: Executor,
  { plotId, growerId, number }: Extract<PeopleChange, { kind: 'give-plot' }>,
): Promise<void> {
  const given = {
    owner_id: growerId,
    number: freeNumber(number, await numbersOfGrower(db, growerId, plotId)),
  };
  await db.updateTable('plots').set(given).where('id', '=', plotId).execute();
}

async function mustBeOpen(db: Executor, schemeId: string, plotId: string): Promise<void> {
  const found = await db
    .selectFrom('plots')
    .innerJoin('seasons', 'seasons.plot_id', 'plots.id')
    .select('plots.id')
    .where('plots.id', '=', plotId)
    .where('plots.scheme_id', '=', schemeId)
    .where('seasons.open', '=', 1)
    .executeTakeFirst();
  if (found === undefined) throw new Error(`no plot "${plotId}" is open in the scheme "${schemeId}"`);
}

/** Somebody who was removed has no phone left. */
async function mustBeGrower(db: Executor, schemeId: string, growerId: string): Promise<void> {
  const found = await db
    .selectFrom('people')
    .innerJoin('phone_people', 'phone_people.person_id', 'people.id')
    .select('people.id')
    .where('people.id', '=', growerId)
    .where('people.scheme_id', '=', schemeId)
    .where('people.role', '=', 'grower')
    .executeTakeFirst();
  if (found === undefined) throw new Error(`no grower "${growerId}" is in the scheme "${schemeId}"`);
}

async function mustBeBlock(db: Executor, schemeId: string, blockId: string): Promise<void> {
  const block = db.selectFrom('blocks').select('id').where('id', '=', blockId);
  const found = await block.where('scheme_id', '=', schemeId).executeTakeFirst();
  if (found === undefined) throw new Error(`no block "${blockId}" is in the scheme "${schemeId}"`);
}

async function refuseLabels(db: Executor, schemeId: string, plots: readonly NewPlot[]): Promise<void> {
  const rows = await db
    .selectFrom('plots')
    .innerJoin('seasons', 'seasons.plot_id', 'plots.id')
    .select('plots.label')
    .where('plots.scheme_id', '=', schemeId)
    .where('seasons.open', '=', 1)
    .execute();
  const taken = new Set(rows.map(({ label }) => label && bareLabel(label)));
  for (const { label } of plots) {
    if (taken.has(bareLabel(label))) throw new Error(`the label "${label}" is another plot's`);
    taken.add(bareLabel(label));
  }
}
