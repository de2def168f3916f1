/** A change of who grows what where, with the new reminders of those whom it gives something to do. */

import type { PeopleChange } from '../scheme/people-change.ts';
import { changePeople } from '../store/change-people.ts';
import type { Trx } from '../store/commit-together.ts';
import { phoneToRemind } from '../store/people.ts';
import { ownerOf } from '../store/plots.ts';
import { planPhone } from './first-reminders.ts';
import type { Line } from './line.ts';

/** Makes the change and plans the phone of the grower who has the plot then; throws as `changePeople` does. */
export async function changeAndPlan(
  trx: Trx,
  line: Line,
  schemeId: string,
  change: PeopleChange,
): Promise<void> {
  await changePeople(trx, schemeId, change, line.makeId);
  const phone = await phoneAfter(trx, change);
  if (phone !== null) await planPhone(trx, line, phone);
}

async function phoneAfter(trx: Trx, change: PeopleChange): Promise<string | null> {
  switch (change.kind) {
    case 'add-grower':
      return change.phone;
    case 'add-plot':
    case 'give-plot':
      return phoneToRemind(trx, change.growerId);
    case 'move-plot': {
      const owner = await ownerOf(trx, change.plotId);
      return owner === null ? null : phoneToRemind(trx, owner);
    }
    case 'remove-plot':
    case 'remove-grower':
      return null;
  }
}
