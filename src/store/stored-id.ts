/** Ids of a scheme file as kept: two schemes may both have a plot "p1". */

/** `storedId('orrowe', 'p1')` is "orrowe/p1". */
export function storedId(schemeId: string, fileId: string): string {
  return `${schemeId}/${fileId}`;
}
