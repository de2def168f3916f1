/** A text without the names of blocks in it, and without a small word that led to one ("of Upper"). */

/** Null when none of the names stands there. `withoutNames('tractor of Upper broken', ['Upper'])` is "tractor broken". */
export function withoutNames(text: string, names: readonly string[]): string | null {
  const rest = names.reduce((left, name) => left.replace(patternOf(name), ' '), text);
  return rest === text ? null : rest.replace(/\s+/g, ' ').trim();
}

function patternOf(name: string): RegExp {
  const letters = name
    .trim()
    .split(/[^\p{L}\p{M}\p{Nd}]+/u)
    .join(String.raw`[^\p{L}\p{M}\p{Nd}]+`);
  return new RegExp(String.raw`(?<![\p{L}\p{M}])(?:\p{L}{1,2}\s+)?${letters}(?![\p{L}\p{M}])`, 'giu');
}
