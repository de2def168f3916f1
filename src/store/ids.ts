/** Names for new rows. Random in service; counted in a simulated season, so that the same season gives the same rows. */
import { randomUUID } from 'node:crypto';

/** Makes an id that no row has yet. */
export type MakeId = () => string;

/**
 * Random ids that begin with the time (RFC 9562 version 7): new rows lie side by side in every index, so that a commit
 * touches few pages. They say nothing about the order of texts: clocks go back.
 */
export const randomId: MakeId = () => {
  const time = Date.now().toString(16).padStart(12, '0');
  return `${time.slice(0, 8)}-${time.slice(8, 12)}-7${randomUUID().slice(15)}`;
};

/** Ids "x-000001", "x-000002" and on: for a database of its own only. */
export function countedIds(prefix: string): MakeId {
  let count = 0;
  return () => {
    count += 1;
    return `${prefix}-${String(count).padStart(6, '0')}`;
  };
}
