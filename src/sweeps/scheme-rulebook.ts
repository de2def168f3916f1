/** The rulebook as it holds in one scheme: with the figures that were kept of the scheme's file. */
import type { RulebookOverrides } from '../agronomy/override-rulebook.ts';
import { ownRulebook } from '../agronomy/own-rulebook.ts';
import type { Rulebook } from '../agronomy/rulebook.ts';

/**
 * The scheme's own book, the given one when the scheme has no figures of its own. Throws, with every mistake, when the
 * figures were kept by a release whose rulebook they still fitted.
 */
export function schemeRulebook(
  book: Rulebook,
  scheme: string,
  overrides: RulebookOverrides | undefined,
): Rulebook {
  if (!overrides) return book;
  const own = ownRulebook(book, overrides);
  if (own.ok) return own.book;
  const mistakes = own.mistakes.map(({ path, what }) => `${path.map(oneBased).join(', ')}: ${what}`);
  throw new Error(
    `the rulebook section kept for ${scheme} no longer fits; mend it in the scheme's file and load the file:\n${mistakes.join('\n')}`,
  );
}

const oneBased = (part: string | number) => (typeof part === 'number' ? String(part + 1) : part);
