/** A scheme's own rulebook, checked as a whole: what its figures make impossible is laid to the override that did it. */
import type { RulebookMistake } from './check-figures.ts';
import { checkRulebook } from './check-rulebook.ts';
import {
  matches,
  type Overridden,
  type OverrideMistake,
  overrideRulebook,
  type RulebookOverrides,
} from './override-rulebook.ts';
import type { Rulebook } from './rulebook.ts';

/** One override among others. */
interface Place {
  readonly list: keyof RulebookOverrides;
  readonly index: number;
}

/** The book with the scheme's figures when it can be used; else every mistake with its path in the overrides. */
export function ownRulebook(book: Rulebook, overrides: RulebookOverrides): Overridden {
  const overridden = overrideRulebook(book, overrides);
  if (!overridden.ok) return overridden;
  const mistakes = checkRulebook(overridden.book);
  if (mistakes.length === 0) return overridden;
  const all = mistakes.map((mistake) => placed(book, overrides, mistake));
  return { ok: false, mistakes: withoutRepeats(all) };
}

/** The first override without which the mistake is gone; the last one concerned when none alone is to blame. */
function placed(book: Rulebook, overrides: RulebookOverrides, mistake: RulebookMistake): OverrideMistake {
  const concerned = concernedBy(book, overrides, mistake);
  const guilty = concerned.find((place) => !remains(book, without(overrides, place), mistake));
  const place = guilty ?? concerned.at(-1);
  return { path: place ? [place.list, place.index] : [], what: `${subject(book, mistake)} ${mistake.what}` };
}

/** Overrides of the figures or rules in question; of no such rule, all of figures, for bounds may follow them. */
function concernedBy(
  book: Rulebook,
  { figures, rules }: RulebookOverrides,
  mistake: RulebookMistake,
): Place[] {
  const wrong = mistake.rules.flatMap((index) => book.rules[index] ?? []);
  const ofRules = rules.flatMap((own, index): Place[] =>
    wrong.some((rule) => matches(own, rule)) ? [{ list: 'rules', index }] : [],
  );
  if (ofRules.length > 0) return ofRules;
  return figures.flatMap(({ figure }, index): Place[] =>
    mistake.figures.length === 0 || mistake.figures.includes(figure) ? [{ list: 'figures', index }] : [],
  );
}

function without(overrides: RulebookOverrides, { list, index }: Place): RulebookOverrides {
  return { ...overrides, [list]: overrides[list].toSpliced(index, 1) };
}

function remains(book: Rulebook, overrides: RulebookOverrides, { place }: RulebookMistake): boolean {
  const overridden = overrideRulebook(book, overrides);
  return !overridden.ok || checkRulebook(overridden.book).some((mistake) => mistake.place === place);
}

/** One override may be wrong in the same way for several rules. */
function withoutRepeats(mistakes: readonly OverrideMistake[]): OverrideMistake[] {
  return [...new Map(mistakes.map((mistake) => [JSON.stringify(mistake), mistake])).values()];
}

/** "rot:", "clear-first, soak-first:", "plough-depth.min:". */
function subject(book: Rulebook, { rules, figures, place }: RulebookMistake): string {
  const names = [
    ...new Set([...rules.map((index) => book.rules[index]?.name ?? ''), ...figures.slice(0, 1)]),
  ];
  return `${names.join(', ') || place}:`;
}
