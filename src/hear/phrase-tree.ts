/** Phrases by their words in turn, each with what it means. */
import type { Sense } from './sense.ts';

/** Phrases by their words in turn. */
export interface Branch {
  readonly next: Map<string, Branch>;
  senses: readonly Sense[];
}

/** Adds a phrase and one of its senses. */
export function plant(root: Branch, words: readonly string[], sense: Sense): void {
  let branch = root;
  for (const word of words) {
    const next: Branch = branch.next.get(word) ?? { next: new Map(), senses: [] };
    branch.next.set(word, next);
    branch = next;
  }
  branch.senses = mergeSense(branch.senses, sense);
}

/** The same verb in a plain and a past list is a form that could be either. */
function mergeSense(senses: readonly Sense[], sense: Sense): readonly Sense[] {
  const twin = senses.find((one) => one.role === sense.role && one.value === sense.value);
  if (!twin) return [...senses, sense];
  if (twin.form === sense.form) return senses;
  return senses.map((one) => (one === twin ? { ...one, form: 'same' as const } : one));
}
