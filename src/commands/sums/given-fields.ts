/** Options that were left out are left out of what is handed on. */

type WithoutMissing<T> = { -readonly [K in keyof T]?: Exclude<T[K], undefined> };

/** The fields of an object whose value is not undefined. */
export function withoutMissing<T extends object>(fields: T): WithoutMissing<T> {
  return Object.fromEntries(
    Object.entries(fields).filter(([, value]) => value !== undefined),
  ) as WithoutMissing<T>;
}
