/** Which scheme a command works on, where the database may hold several. */
import type { SchemeEntry } from '../store/load-schemes.ts';

/** The scheme of that id or name, the only one when none is named; null when that leaves it open. */
export function schemeChosen(schemes: readonly SchemeEntry[], named: string | undefined): SchemeEntry | null {
  if (named === undefined) return schemes.length === 1 ? (schemes[0] ?? null) : null;
  const word = named.toLowerCase();
  return schemes.find(({ world }) => world.id === word || world.name.toLowerCase() === word) ?? null;
}

/** What to say when none was chosen. */
export const chooseScheme = (schemes: readonly SchemeEntry[]): string =>
  `choose a scheme with --scheme: ${schemes.map(({ world }) => world.id).join(', ')}`;
