/** Sources as one line of text, each with how well it is founded: for pages and printed sums. */
import type { Mark, Source } from './rulebook.ts';

/** What each mark is called where people read it. */
export const MARKS: Readonly<Record<Mark, string>> = {
  published: 'published',
  'second-hand': 'second-hand',
  'common-practice': 'common practice',
  'from-memory': 'from memory',
  judgement: 'judgement',
  scheme: "scheme's own",
};

/** "Yoshida 1981, p. 21 [published]; hand levelling [from memory]". */
export function sourcesText(sources: readonly Source[]): string {
  return sources.map(({ text, mark }) => `${text} [${MARKS[mark]}]`).join('; ');
}
