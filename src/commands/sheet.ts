/** `npm run -s sheet -- --lang en [--write]`: shows every message of a language, or writes it to `locales/<lang>/sheet.md`. */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { hear } from '../hear/hear.ts';
import type { Lexicon } from '../hear/lexicon.ts';
import { readWords } from '../hear/read-words.ts';
import type { Heard, Reading } from '../hear/reading.ts';
import { dayFromParts } from '../plan/day.ts';
import { type Catalogue, openCatalogue } from '../say/catalogue.ts';
import { SayError } from '../say/fault.ts';
import { lintCatalogue, lintTexts } from '../say/lint.ts';
import { sampleTexts } from '../say/sampler.ts';
import { SAMPLES } from '../say/samples.ts';
import { type ReadBack, sheetPage } from '../say/sheet.ts';
import { readMessages } from '../sweeps/read-messages.ts';

const LOCALES = fileURLToPath(new URL('../../locales/', import.meta.url));
const SOURCE = 'en';
/** A Wednesday in the season: phrases are heard on the same day whenever the sheet is made. */
const HEARD_ON = dayFromParts(2027, 3, 10) ?? 0;

/** A language's sheet and what is wrong with its texts. */
export interface Sheet {
  readonly page: string;
  readonly complaints: readonly string[];
}

/** Languages that have messages, in alphabetical order. */
export function languagesIn(locales: string = LOCALES): string[] {
  return readdirSync(locales)
    .filter((lang) => existsSync(join(locales, lang, 'messages.json')))
    .sort();
}

/** Makes the sheet of one language from its folder; throws a SayError when its data are malformed. */
export function makeSheet(lang: string, locales: string = LOCALES): Sheet {
  const catalogue = loadCatalogue(lang, locales);
  const texts = sampleTexts(catalogue, SAMPLES);
  const complaints = [
    ...lintCatalogue(catalogue, loadCatalogue(SOURCE, locales)),
    ...lintTexts(texts, catalogue),
  ];
  return { page: sheetPage(catalogue, texts, readBackIn(lang, locales)), complaints };
}

/** Prints the sheets asked for (every language without `--lang`); returns 1 when a text is wrong, 2 when the request is. */
export function sheetCommand(args: readonly string[]): Promise<number> {
  return Promise.resolve(run(args));
}

function run(args: readonly string[]): number {
  try {
    const options = { lang: { type: 'string', multiple: true }, write: { type: 'boolean' } } as const;
    const { values } = parseArgs({ args: [...args], options });
    const known = languagesIn();
    const langs = values.lang ?? known;
    const unknown = langs.filter((lang) => !known.includes(lang));
    if (unknown.length > 0)
      throw new TypeError(`No messages for ${unknown.join(', ')}; there are ${known.join(', ')}.`);
    return Math.max(0, ...langs.map((lang) => put(lang, values.write === true)));
  } catch (error) {
    if (!(error instanceof SayError || error instanceof TypeError)) throw error;
    process.stderr.write(`${error.message}\n`);
    return error instanceof SayError ? 1 : 2;
  }
}

function put(lang: string, write: boolean): number {
  const { page, complaints } = makeSheet(lang);
  if (write) writeFileSync(join(LOCALES, lang, 'sheet.md'), page);
  else process.stdout.write(page);
  for (const complaint of complaints) process.stderr.write(`${lang}: ${complaint}\n`);
  return complaints.length > 0 ? 1 : 0;
}

/** A language's messages and calendar; throws a SayError when they are malformed. */
export function loadCatalogue(lang: string, locales: string = LOCALES): Catalogue {
  const read = (file: string): unknown => JSON.parse(readFileSync(join(locales, lang, file), 'utf8'));
  return openCatalogue({
    lang,
    messages: readMessages(join(locales, lang)),
    calendar: read('calendar.json'),
  });
}

/** What the line understands from a phrase, by the word list beside the messages; a dash where there is none yet. */
function readBackIn(lang: string, locales: string): ReadBack {
  const path = join(locales, lang, 'words.json');
  if (!existsSync(path)) return () => '-';
  const words = readWords(JSON.parse(readFileSync(path, 'utf8')));
  if (!words.ok) return () => `words.json: ${words.mistakes.length} mistakes`;
  const { lexicon } = words;
  return (phrase, key) =>
    heardText(isForAgents(key) ? heardFromAgent(phrase, lexicon) : hear(phrase, lexicon, HEARD_ON));
}

/** Messages that only agents get; what they tell is heard on an agent's phone. */
const FOR_AGENTS = [
  ...['agent', 'flood', 'preview', 'ready', 'plot-state', 'turns', 'team', 'steps', 'digest'],
  ...['stopped', 'people', 'menu.agent', 'late.plots', 'late.nobody'],
];
export const isForAgents = (key: string) =>
  FOR_AGENTS.some((one) => key === one || key.startsWith(`${one}.`));

/** What an agent goes on with behind a command: a block, words, a plot, or a new grower. */
const GOES_ON = ['', ' Ama', ' Ama: 5', ' A-1', ' +447700900001 Ama 1 ha'];

/** A command as an agent texts it, in the block "Ama"; the first way in which it is one. */
export function heardFromAgent(phrase: string, lexicon: Lexicon): Heard {
  const all = GOES_ON.map((rest) => hear(phrase + rest, lexicon, HEARD_ON, ['Ama']));
  return all.find(({ readings }) => readings[0]?.kind === 'agent') ?? hear(phrase, lexicon, HEARD_ON);
}

function heardText({ readings, unclear }: Heard): string {
  if (unclear !== null) return `unclear: ${unclear.why}`;
  return readings.map(readingText).join('; ');
}

/** "report activity plough, stage finished, plots 3": the fields that say something. */
function readingText(reading: Reading): string {
  const { kind, assumed, ...fields } = reading;
  const said = Object.entries(fields)
    .map(([name, value]) => [name, typeof value === 'string' ? value : JSON.stringify(value)] as const)
    .filter(([name, text]) => text !== '[]' && text !== '{}' && !assumed.some((field) => field === name));
  return [kind, said.map(([name, text]) => `${name} ${text}`).join(', ')].join(' ').trim();
}
