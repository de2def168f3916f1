/** Names for new rows. Random in service; counted in a simulated season, so that the same season gives the same rows. */
import { randomUUID } from 'node:crypto';

/** Makes an id that no row has yet. */
export type MakeId = () => string;

/** Random ids (RFC 9562 version 4). */
export const randomId: MakeId = () => randomUUID();

/** Ids "x-000001", "x-000002" and on: for a database of its own only. */
export function countedIds(prefix: string): MakeId {
  let count = 0;
  return () => {
    count += 1;
    return `${prefix}-${String(count).padStart(6, '0')}`;
  };
}
