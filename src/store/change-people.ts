/** Changes of who grows what where. */
import type { PeopleChange } from '../scheme/people-change.ts';
import type { MakeId } from './ids.ts';
import type { Executor } from './ready-query.ts';

/** Makes one change. */
export async function changePeople(
  _db: Executor,
  _schemeId: string,
  change: PeopleChange,
  _makeId: MakeId,
): Promise<void> {
  throw new Error(`not written yet: ${change.kind}`);
}
