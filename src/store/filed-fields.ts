/** Tells what a scheme file changed since it was last read, so that what growers changed by text is not put back. */

/** The fields that the file now gives another value than it gave last; all of them when it was never read. */
export function changedFields<Fields extends object>(filed: string | null, now: Fields): Partial<Fields> {
  if (filed === null) return now;
  const before = JSON.parse(filed) as Record<string, unknown>;
  const changed = Object.entries(now).filter(
    ([name, value]) => JSON.stringify(before[name]) !== JSON.stringify(value),
  );
  return Object.fromEntries(changed) as Partial<Fields>;
}
