/** What an export is made of: a scheme, all of its blocks or one, and how plots are called in it. */
import type { SchemeEntry } from '../../store/load-schemes.ts';

export interface Chosen {
  readonly scheme: SchemeEntry;
  readonly blocks: SchemeEntry['world']['blocks'];
}

/** A plot's label, or its grower's name and its number. */
export const plotName = (label: string | null, grower: string, number: string): string =>
  label ?? `${grower} ${number}`.trim();

/** The scheme with the block of that name or id, all blocks when none is named; null when there is no such block. */
export function choose(scheme: SchemeEntry, named: string | undefined): Chosen | null {
  const { id: schemeId, blocks } = scheme.world;
  if (named === undefined) return { scheme, blocks };
  const word = named.toLowerCase();
  const found = blocks.filter(({ id, name }) =>
    [name.toLowerCase(), id, blockFile(schemeId, id)].includes(word),
  );
  return found.length === 0 ? null : { scheme, blocks: found };
}

/** A block's id in the scheme's file, which can name a file: "upper". */
export const blockFile = (schemeId: string, blockId: string): string => blockId.slice(schemeId.length + 1);
