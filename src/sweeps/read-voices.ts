/** Reads the languages that the line speaks from their folders. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { automaticMarks, isAutomatic } from '../hear/automatic.ts';
import { hear } from '../hear/hear.ts';
import { hearDetails } from '../hear/hear-details.ts';
import { lexiconsFor, whyTaken } from '../hear/own-unit.ts';
import { type ReadWords, readWords } from '../hear/read-words.ts';
import { wordsKnown } from '../hear/words-known.ts';
import { strangersIn, workWordsIn } from '../hear/work-words.ts';
import { openCatalogue } from '../say/catalogue.ts';
import { say } from '../say/say.ts';
import type { Voice } from './line.ts';
import { readMessages } from './read-messages.ts';

const LOCALES = fileURLToPath(new URL('../../locales/', import.meta.url));
/** The language that stands in for one that is not spoken. */
const SOURCE = 'en';
const FILES = ['words.json', 'messages.json', 'calendar.json'] as const;

/** Every language with all its files, English first; throws with the file and its mistakes when one is malformed. */
export function readVoices(locales: string = LOCALES): readonly Voice[] {
  const complete = (lang: string) => FILES.every((file) => existsSync(join(locales, lang, file)));
  const langs = readdirSync(locales).filter(complete).sort();
  return langs
    .sort((a, b) => Number(b === SOURCE) - Number(a === SOURCE))
    .map((lang) => readVoice(locales, lang));
}

function readVoice(locales: string, lang: string): Voice {
  const read = (file: (typeof FILES)[number]): unknown =>
    JSON.parse(readFileSync(join(locales, lang, file), 'utf8'));
  const words = wordsOf(lang, read('words.json'));
  const lexicon = lexiconsFor(words.list, words.lexicon);
  const markOf = automaticMarks(words.list.automatic);
  const catalogue = openCatalogue({
    lang,
    messages: readMessages(join(locales, lang)),
    calendar: read('calendar.json'),
  });
  return {
    lang,
    hear: (text, today, unit, blocks) => hear(text, lexicon(unit), today, blocks),
    details: (text, unit) => hearDetails(text, lexicon(unit)),
    isAutomatic: (text, today, heard) => {
      const mark = markOf(text);
      return mark !== null && isAutomatic(mark, hear(text, words.lexicon, today), heard);
    },
    whyTaken: (word) => whyTaken(word, words.lexicon),
    wordsKnown: (text) => wordsKnown(text, words.lexicon),
    strangersIn: (text) => strangersIn(text, words.lexicon),
    workWordsIn: (text) => workWordsIn(text, words.lexicon),
    say: (saying, budgetParts) => say(saying, catalogue, budgetParts).text,
  };
}

function wordsOf(lang: string, words: unknown): Extract<ReadWords, { readonly ok: true }> {
  const reading = readWords(words);
  if (!reading.ok) throw new Error(`locales/${lang}/words.json: ${reading.mistakes.join('; ')}`);
  return reading;
}
