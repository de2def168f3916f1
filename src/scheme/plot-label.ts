/** Labels of plots as people write them. */

/** "A-17", "a17" and "A 017" are one label; "03" is plot 3. */
export function bareLabel(name: string): string {
  return name
    .toLowerCase()
    .replace(/[\s-]/g, '')
    .replace(/(^|[a-z])0+(?=\d)/g, '$1');
}
