/** Checks a `words.json` and makes it ready for hearing; every mistake is named with its place. */
import { buildLexicon, type Lexicon, phraseWords } from './lexicon.ts';
import { type WordList, wordListShape } from './word-list.ts';

export type ReadWords =
  | { readonly ok: true; readonly list: WordList; readonly lexicon: Lexicon }
  | { readonly ok: false; readonly mistakes: readonly string[] };

function unknownMeanings(list: WordList): string[] {
  const verbs = new Set([...Object.keys(list.verbs), ...Object.keys(list.activities)]);
  const things = new Set(Object.keys(list.things));
  return list.meanings.flatMap((meaning, i) => {
    const wrong: string[] = [];
    if (meaning.verb && !verbs.has(meaning.verb))
      wrong.push(`meanings.${i}.verb: "${meaning.verb}" is in no verb list`);
    if (meaning.thing && !things.has(meaning.thing))
      wrong.push(`meanings.${i}.thing: "${meaning.thing}" is no thing`);
    if (meaning.means.length === 0 && !meaning.trouble && !meaning.nothing)
      wrong.push(`meanings.${i}: means nothing`);
    if (!meaning.verb && !meaning.thing) wrong.push(`meanings.${i}: needs a verb, a thing or both`);
    return wrong;
  });
}

const unknownHelpers = (list: WordList): string[] =>
  list.helpers.flatMap((helper, i) =>
    !('verb' in helper) || list.verbs[helper.verb]
      ? []
      : [`helpers.${i}: "${helper.verb}" is in no verb list`],
  );

function wordsInTwoActivities(list: WordList): string[] {
  const seen = new Map<string, string>();
  const wrong: string[] = [];
  for (const [name, verb] of [...Object.entries(list.activities), ...Object.entries(list.verbs)]) {
    for (const [form, phrases] of Object.entries(verb ?? {})) {
      for (const [i, phrase] of phrases.entries()) {
        if (form === 'stems' || form === 'loans') continue;
        const key = phraseWords(phrase).join(' ');
        const other = seen.get(key);
        if (other !== undefined && other !== name)
          wrong.push(`${name}.${form}.${i}: "${phrase}" also means ${other}`);
        seen.set(key, name);
      }
    }
  }
  return wrong;
}

function uselessKnownWords(list: WordList): string[] {
  const { words, spellings } = buildLexicon({ ...list, knownWords: [], knownStems: [] });
  return list.knownWords.flatMap((line, i) =>
    phraseWords(line).flatMap((word) =>
      words.has(word) || spellings.has(word)
        ? [`knownWords.${i}: "${word}" already stands in another list`]
        : [],
    ),
  );
}

/** Reads the parsed JSON of a word list. `readWords({})` gives `{ ok: false, mistakes: ['language: …', …] }`. */
export function readWords(raw: unknown): ReadWords {
  const checked = wordListShape.safeParse(raw);
  if (!checked.success) {
    return {
      ok: false,
      mistakes: checked.error.issues.map((issue) => `${issue.path.join('.')}: ${issue.message}`),
    };
  }
  const list = checked.data;
  const mistakes = [
    ...unknownMeanings(list),
    ...unknownHelpers(list),
    ...wordsInTwoActivities(list),
    ...uselessKnownWords(list),
  ];
  return mistakes.length > 0 ? { ok: false, mistakes } : { ok: true, list, lexicon: buildLexicon(list) };
}
