/** A language's word list made ready for reading: phrases in a tree, words for fuzzy look-up. Built once per language. */
import type { Activity } from '../agronomy/season.ts';
import { clean, foldWord } from './fold.ts';
import { type KnownWords, knownWords } from './known-words.ts';
import { alikeKey, skeleton, slipsAllowed, squeeze } from './nearness.ts';
import { type Branch, plant } from './phrase-tree.ts';
import { type Reach, reachOf } from './reach.ts';
import type { Trouble } from './reading.ts';
import type { Sense } from './sense.ts';
import { type Spelling, tokenise } from './tokens.ts';
import type { WordList } from './word-list.ts';
import { wordSenses } from './word-senses.ts';
import { isWorkRole } from './work-roles.ts';

export interface Meaning {
  readonly verb?: string | undefined;
  readonly thing?: string | undefined;
  readonly means: readonly Activity[];
  readonly trouble?: Trouble | undefined;
  readonly implied?: true | undefined;
  readonly staged?: true | undefined;
  readonly unplaced?: true | undefined;
}

export interface Lexicon {
  readonly language: string;
  readonly monthFirst: boolean;
  readonly decimalComma: boolean;
  /** Whether a bare number behind a weekday may be a day ("lundi 15"). */
  readonly numberedDays: boolean;
  readonly elisions: ReadonlySet<string>;
  /** Typed endings, with their accents, that leave no doubt that a thing is done. */
  readonly doneEndings: readonly string[];
  readonly unitsFirst: boolean;
  /** Whether verbs come last, and words for the side of a day or a number behind it. */
  readonly verbsLast: boolean;
  readonly phrases: Branch;
  /** Words of plain requests to be left alone: a tree of their own, so that they change no other reading. */
  readonly optOut: Branch;
  /** Every word of these, and those among them that end the texts by themselves. */
  readonly optOutWords: ReadonlySet<string>;
  readonly endingWords: readonly string[];
  /** Every word that stands in some phrase. */
  readonly words: ReadonlySet<string>;
  /** Those that stand in some phrase about work, water, machines or weather. */
  readonly ofWork: ReadonlySet<string>;
  /** Words for ceasing, which only denied say that it goes on ("will not stop"), and phrases that say so by themselves. */
  readonly ceasing: ReadonlySet<string>;
  readonly endless: readonly string[];
  /** Words never taken for a misspelt word of ours. */
  readonly known: KnownWords;
  /** The right word for a known misspelling. */
  readonly spellings: ReadonlyMap<string, string>;
  /** Words typed for one on the same keys that turns the meaning round: "par" for "pas". */
  readonly miskeyed: ReadonlyMap<string, string>;
  /** Letters that people write for each other, and the words by how they look when these are made the same. */
  readonly alike: WordList['alike'];
  readonly byAlike: ReadonlyMap<string, readonly string[]>;
  /** Words that are forgiven slips. */
  readonly reach: Reach;
  readonly squeezed: ReadonlyMap<string, readonly string[]>;
  readonly skeletons: ReadonlyMap<string, readonly string[]>;
  /** Words that turn a meaning round: a slip near one of them makes the line ask. */
  readonly turning: readonly string[];
  /** Days and known misspellings of days and verbs: a word as near to another one of them is asked about. */
  readonly weighty: readonly { readonly text: string; readonly right: string }[];
  readonly articles: ReadonlySet<string>;
  /** Figures that may stand for words, and those that do so before the word for plot. */
  readonly figureWords: ReadonlyMap<string, string>;
  readonly figuresBeforePlots: ReadonlySet<string>;
  /** Verbs that take the word for work before them along. */
  readonly helpers: ReadonlySet<string>;
  readonly meanings: readonly Meaning[];
  readonly units: WordList['units'];
  /** Heard on an agent's phone, and in no other text. */
  readonly agentOnly: WordList['agentOnly'];
}

const DAY_ROLES = ['offset', 'either', 'weekday'];
const TURNING = new Set(['not', 'future', 'nothing']);
/** Words that only surround the message need no forgiving; forgiving them would only catch strangers. */
const UNFORGIVEN = new Set(['article', 'signature', 'intro', 'ending', 'language', 'tillage', 'lossPart']);
/** And these only when they are long. */
const SLIGHT = new Set(['filler', 'greeting', 'gone', 'ended', 'sharePart']);
/** Fewer consonants than this are too few to know a word by. */
const SKELETON_LETTERS = 4;

/** The folded words of a phrase, its figures as texts have them when they are read; `phraseWords('Day before yesterday')` is three words. */
export function phraseWords(phrase: string): string[] {
  const whole = {
    isWord: () => true,
    opensNumber: () => false,
    isElision: () => false,
    isEnding: () => false,
  };
  return tokenise(clean(phrase), whole).map((token) =>
    token.kind === 'word' ? foldWord(token.raw) : token.text,
  );
}

function index(words: Iterable<string>, key: (word: string) => string): Map<string, string[]> {
  const map = new Map<string, string[]>();
  for (const word of words) {
    const at = key(word);
    const list = map.get(at);
    if (list) list.push(word);
    else map.set(at, [word]);
  }
  return map;
}

const isLetters = (word: string) => /^[\p{L}\p{M}']+$/u.test(word);

/** Slips in short words are forgiven only where the word bears the meaning: "musa" is not "must". */
const SHORT_MARK = 5;

/** Nobody goes by a slip of the finger: "Asha" is a name, "acha" ends the texts. */
const GOING = new Set(['stop', 'forget']);

function isForgivenAs(sense: Sense, word: string): boolean {
  if (sense.role === 'account' && GOING.has(sense.value)) return false;
  if (UNFORGIVEN.has(sense.role)) return false;
  const turnsNothing = sense.role === 'mark' && !TURNING.has(sense.value);
  return word.length > SHORT_MARK || !(SLIGHT.has(sense.role) || turnsNothing);
}

const isForgiven = (word: string, root: Branch, inVerbs: ReadonlySet<string>): boolean =>
  (word.length >= SHORT_MARK && inVerbs.has(word)) ||
  (root.next.get(word)?.senses.some((sense) => isForgivenAs(sense, word)) ?? false);

function turningWords(root: Branch): string[] {
  const turns = [...root.next].filter(([, branch]) =>
    branch.senses.some((sense) => sense.role === 'mark' && TURNING.has(sense.value)),
  );
  return turns.map(([word]) => word).filter((word) => word.length >= 3);
}

/** Words by which a day is named, and known misspellings of these and of verbs. */
function weightyWords(
  root: Branch,
  spellings: ReadonlyMap<string, string>,
): { text: string; right: string }[] {
  const has = (word: string, roles: readonly string[]) =>
    root.next.get(word)?.senses.some((sense) => roles.includes(sense.role)) ?? false;
  const named = [...root.next.keys()]
    .filter((word) => has(word, DAY_ROLES))
    .map((word) => ({ text: word, right: word }));
  const misspelt = [...spellings].map(([text, right]) => ({ text, right }));
  const weighty = misspelt.filter(({ right }) => has(right, [...DAY_ROLES, 'act', 'verb']));
  return [...named, ...weighty].filter(({ text }) => text.length >= 4);
}

function rightWords(spellings: WordList['spellings']): Map<string, string> {
  const pairs = Object.entries(spellings).flatMap(([right, wrong]) =>
    wrong.map((word) => [foldWord(word), foldWord(right)] as const),
  );
  return new Map(pairs);
}

/** What tells a plain request to be left alone. */
function optOuts({ optOut, account }: WordList): Pick<Lexicon, 'optOut' | 'optOutWords' | 'endingWords'> {
  const root: Branch = { next: new Map(), senses: [] };
  const words = new Set<string>();
  const isPhrase = (one: string) => phraseWords(one).length > 1;
  const whole = [...optOut.whole, ...account.stop.filter(isPhrase)];
  const word = account.stop.filter((one) => !isPhrase(one));
  for (const [value, phrases] of Object.entries({ ...optOut, whole, word })) {
    for (const parts of phrases.map(phraseWords)) {
      plant(root, parts, { role: 'optOut', value });
      for (const part of parts) words.add(part);
    }
  }
  return { optOut: root, optOutWords: words, endingWords: word.map(foldWord) };
}

/** Builds the lexicon of a checked word list. */
export function buildLexicon(list: WordList): Lexicon {
  const phrases: Branch = { next: new Map(), senses: [] };
  const words = new Set<string>();
  const ofWork = new Set<string>();
  const inVerbs = new Set<string>();
  const leads = new Map<string, number>();
  for (const { phrase, sense, lead = 0 } of wordSenses(list)) {
    const parts = phraseWords(phrase);
    if (parts.length === 0) continue;
    plant(phrases, parts, sense);
    const [only] = parts;
    if (lead > 0 && only !== undefined && parts.length === 1)
      leads.set(only, Math.max(lead, leads.get(only) ?? 0));
    for (const part of parts) words.add(part);
    if (isWorkRole(sense.role)) for (const part of parts) ofWork.add(part);
    const turns = sense.role === 'mark' && TURNING.has(sense.value);
    if (sense.role === 'act' || sense.role === 'verb' || turns) for (const part of parts) inVerbs.add(part);
  }
  const known = knownWords(
    new Set(list.knownWords.flatMap(phraseWords)),
    new Set(list.knownStems.flatMap(phraseWords)),
    list.patterns,
  );
  const fuzzy = [...words].filter(
    (word) => isLetters(word) && word.length > 3 && isForgiven(word, phrases, inVerbs),
  );
  return {
    language: list.language,
    monthFirst: list.dateOrder === 'month-day',
    decimalComma: list.decimalComma,
    numberedDays: list.dates.numbered.length > 0,
    elisions: new Set(list.elisions.map(foldWord)),
    doneEndings: list.doneEndings.map((ending) => ending.normalize('NFC')),
    unitsFirst: list.unitsFirst,
    verbsLast: list.verbsLast,
    phrases,
    ...optOuts(list),
    words,
    ofWork,
    ceasing: new Set(list.troubles.ceasing.map(foldWord)),
    endless: list.troubles.endless.map((phrase) => phraseWords(phrase).join(' ')),
    known,
    spellings: rightWords(list.spellings),
    miskeyed: new Map(Object.entries(list.miskeyed)),
    alike: list.alike,
    byAlike: index(list.alike.length > 0 ? [...words].filter(isLetters) : [], (word) =>
      alikeKey(word, list.alike),
    ),
    reach: reachOf(fuzzy, (word) => slipsAllowed(word.length - (leads.get(word) ?? 0))),
    squeezed: index(fuzzy, squeeze),
    skeletons: index(
      fuzzy.filter((word) => skeleton(word).length >= SKELETON_LETTERS),
      skeleton,
    ),
    turning: turningWords(phrases),
    weighty: weightyWords(phrases, rightWords(list.spellings)),
    articles: new Set(list.articles.map(foldWord)),
    figureWords: new Map(Object.entries(list.numbers.asWords)),
    figuresBeforePlots: new Set(list.numbers.beforePlots),
    helpers: new Set(list.helpers.flatMap((helper) => ('verb' in helper ? [helper.verb] : []))),
    meanings: list.meanings,
    units: list.units,
    agentOnly: list.agentOnly,
  };
}

/** What the tokeniser must know of a language. */
export function spellingOf(lexicon: Lexicon): Spelling {
  return {
    isWord: (word) => lexicon.words.has(word) || lexicon.spellings.has(word),
    isElision: (letters) => lexicon.elisions.has(letters),
    isUnit: (letters) => {
      const roles = (lexicon.phrases.next.get(letters)?.senses ?? []).map(({ role }) => role);
      return roles.includes('unit') && !roles.includes('plot');
    },
    isEnding: (letters) =>
      lexicon.phrases.next.get(letters)?.senses.some((s) => s.role === 'ending') ?? false,
    opensNumber: (letters) =>
      lexicon.phrases.next
        .get(letters)
        ?.senses.some(
          ({ role, value }) =>
            role === 'plot' || (role === 'join' && value !== 'to') || (role === 'unit' && lexicon.unitsFirst),
        ) ?? false,
  };
}
