/** The rulebook as it holds in one scheme: with the figures that were kept of the scheme's file. */
import { ownRulebook } from '../agronomy/own-rulebook.ts';
import type { Rulebook } from '../agronomy/rulebook.ts';
import type { SchemeEntry } from '../store/load-schemes.ts';

/**
 * The scheme's own book, the given one when the scheme has no figures of its own. Throws, with every mistake, when the
 * figures were kept by a release whose rulebook they still fitted.
 */
export function schemeRulebook(book: Rulebook, { world, settings }: SchemeEntry): Rulebook {
  if (!settings.rulebook) return book;
  const own = ownRulebook(book, settings.rulebook);
  if (own.ok) return own.book;
  const mistakes = own.mistakes.map(({ path, what }) => `${path.map(oneBased).join(', ')}: ${what}`);
  throw new Error(
    `the rulebook section kept for ${world.name} no longer fits; mend it in the scheme's file and load the file:\n${mistakes.join('\n')}`,
  );
}

const oneBased = (part: string | number) => (typeof part === 'number' ? String(part + 1) : part);
