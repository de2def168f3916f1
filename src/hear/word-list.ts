/** The shape of `locales/<lang>/words.json`: what a native speaker edits. Lists of words and phrases, no code. */

import { z } from 'zod';
import { ACTIVITIES } from '../agronomy/season.ts';
import { AGENT_ONLY } from './agent-only.ts';
import { type Form, GROWN, MARKS, STAGES, type Turned } from './forms.ts';

const phrase = z.string().trim().min(1, 'a word may not be empty');
const phrases = z.array(phrase).default([]);
const lists = <const K extends readonly [string, ...string[]]>(keys: K) =>
  z.strictObject(Object.fromEntries(keys.map((key) => [key, phrases])) as Record<K[number], typeof phrases>);

const verb = z.strictObject({
  stems: phrases,
  /** Stems taken over from another language, which grow by patterns of their own. */
  loans: phrases,
  ...Object.fromEntries(GROWN.map((form) => [form, phrases])),
} as Record<Form | Turned | 'stems' | 'loans', typeof phrases>);

const patterns = z.partialRecord(z.enum(GROWN), z.array(z.string().includes('~'))).default({});

const TROUBLES = ['no-water', 'no-seed', 'no-machine', 'flooded-out', 'pests', 'other'] as const;
const activity = z.enum(ACTIVITIES);
const unit = z.strictObject({
  words: z.array(phrase).min(1),
  kind: z.enum(['length', 'area', 'amount', 'time', 'count']),
  /** Centimetres or hectares in one of it; 1 for the rest. */
  factor: z.number().positive().default(1),
});

const OPT_OUT = ['whole', 'alone', 'asks', 'refuses', 'about', 'idle', 'polite', 'lone', 'how'] as const;
const optOut = lists(OPT_OUT);

const said = z.enum([...STAGES, ...MARKS]);

const LOSSES = ['seedlings', 'crop'] as const;

const SUMS = ['level', 'seed', 'germination', 'nutrients', 'water', 'rain', 'work', 'phases'] as const;

export const wordListShape = z.strictObject({
  language: z.string().min(2),
  /** Which comes first in "3/5"; and whether "0,4" is a number. */
  dateOrder: z.enum(['day-month', 'month-day']).default('day-month'),
  decimalComma: z.boolean().default(false),
  /** Short words that lose their vowel before an apostrophe ("l" in "l'eau"): what follows is a word of its own. */
  elisions: phrases,
  /** Endings that, typed with their accents, make a form that is also plain or present surely done ("é": "labouré"). */
  doneEndings: phrases,
  /** Whether a unit stands before its figure ("kilo 50"). */
  unitsFirst: z.boolean().default(false),
  /** Whether verbs come last, and words for the side of a day or a number ("until", "no.") behind it ("শুক্রবার পর্যন্ত", "৩ নং"). */
  verbsLast: z.boolean().default(false),
  /** How people shorten or misspell single words: the right word first. */
  spellings: z.record(z.string(), z.array(phrase)).default({}),
  /** Words that a phone writes for one on the same keys that turns the meaning ("par": "pas"): before work, both are asked about. */
  miskeyed: z.record(z.string(), phrase).default({}),
  /** Letters that people write for each other, the one that counts last ("sh" as "s"): words not known are looked up so. */
  alike: z.array(z.tuple([z.string().min(1), z.string()])).default([]),
  /** How stems grow into forms; "~" stands for the stem ("~ed", "nime~"). */
  patterns,
  /** The same for loans ("nime~": "nimeplough"). */
  loanPatterns: patterns,
  activities: z.partialRecord(activity, verb),
  /** Verbs that mean an activity only together with a thing ("put" + "manure"). */
  verbs: z.record(z.string(), verb).default({}),
  /**
   * Verbs that only help another one, grown by the patterns. With stems they lead it ("begin", "want"): each says a stage or a
   * mark; `doing` is what it says while under way. Those of `verbs` take the word for work before them along ("চাষ করেছি"), which
   * then stands in their form. Denied, to come, ordered and conditional forms say that, with or without other work.
   */
  helpers: z
    .array(
      z.union([
        z.strictObject({ stems: z.array(phrase).min(1), says: said, doing: said.optional() }),
        z.strictObject({ verb: phrase }),
      ]),
    )
    .default([]),
  things: z.record(z.string(), z.array(phrase)).default({}),
  /** First match wins; several activities make a question. No `thing`: the verb alone. No `verb`: the thing alone. */
  meanings: z
    .array(
      z.strictObject({
        verb: z.string().optional(),
        thing: z.string().optional(),
        means: z.array(activity).default([]),
        /** Instead of an activity: "the river flooded plot 3" is a trouble. */
        trouble: z.enum(TROUBLES).optional(),
        /** The thing alone counts only beside a word that says how far the work is ("nursery finished"). */
        staged: z.literal(true).optional(),
        /** Counts only where no plot is named at all ("soaked yesterday": the seed, or a plot). */
        unplaced: z.literal(true).optional(),
        /** Together they are no work of ours: "watered nursery" floods no plot. */
        nothing: z.literal(true).optional(),
        /** They only imply the work: bunds are closed to hold the rain, or for some other reason. */
        implied: z.literal(true).optional(),
      }),
    )
    .default([]),
  marks: lists(MARKS),
  /** `nearly` is under way since a day that was not said. What part is done stands in `shares`. */
  stages: lists(STAGES),
  /**
   * `article` stands for the word for plot before a bare number ("la 3"); `articles` before several ("les 1 et 2").
   * `counted`: words for plots, or numbers right behind them, that with one number alone are a count ("plots two").
   */
  plots: lists(['one', 'many', 'all', 'except', 'other', 'number', 'article', 'articles', 'counted']),
  joins: lists(['and', 'or', 'then', 'but', 'to']),
  numbers: z.strictObject({
    words: z.record(z.string(), z.number()),
    ordinals: z.record(z.string(), z.number()).default({}),
    endings: phrases,
    /** Figures that stand for words in short writing ("2": "to"), and those that do so before the word for plot ("4 plot 1"). */
    asWords: z.record(z.string().regex(/^\d+$/), phrase).default({}),
    beforePlots: phrases,
  }),
  dates: z.strictObject({
    /** Days from today. */
    offsets: z.record(z.string(), z.number().int()),
    /** Days from today on the side that the verb tells: "কাল" is yesterday or tomorrow. */
    either: z.record(z.string(), z.number().int().positive()).default({}),
    /** Words for today that say it is over ("this morning"). */
    past: phrases,
    /** Words for today that may say it is to come ("tonight"). */
    later: phrases,
    weekdays: z.array(z.array(phrase)).length(7, 'seven lists, Monday first'),
    months: z.array(z.array(phrase)).length(12, 'twelve lists'),
    day: phrases,
    week: phrases,
    month: phrases,
    ago: phrases,
    ahead: phrases,
    last: phrases,
    next: phrases,
    this: phrases,
    on: phrases,
    /** Words that make a bare number behind them, or behind a weekday, a day ("le 15"), where a plot is named too. */
    numbered: phrases,
    /** Words right before the number of a day, or right behind it, which make it one ("tarehe 5", "৬ তারিখে"). */
    dayWords: phrases,
    at: phrases,
    of: phrases,
    until: phrases,
    by: phrases,
    one: phrases,
    vague: phrases,
    unknown: phrases,
  }),
  units: z.record(z.string(), unit),
  /** `tall` things have a height: a length behind them is no depth ("seedlings of 20 cm"). */
  measures: lists(['deep', 'high', 'tall', 'spots']),
  /** Parts of a plot. `words` are parts by themselves; `parts` follow a number ("3 quarters"); `rest` is what was left to do. */
  shares: z.strictObject({
    words: z.record(z.string(), z.number().gt(0).lt(1)),
    parts: z.record(z.string(), z.number().int().min(2)),
    percent: phrases,
    rest: phrases,
    /** The same, where one plot or its work follows ("rest of"). */
    restOf: phrases,
  }),
  /** `names` speak of rain, `fell` says by itself that it fell, `none` that it did not, `coming` that it is only expected. */
  rain: lists(['names', 'fell', 'none', 'coming']),
  troubles: z.strictObject({
    phrases: lists(TROUBLES),
    /** Words that are a trouble only where no work is named ("plot 3 dry"). */
    alone: lists(TROUBLES),
    /** Words for work that are a trouble where they last until a day to come ("flooded until Friday"). */
    lasting: lists(TROUBLES),
    /** Things whose lack is a trouble, and the words for lacking that may stand beside them. */
    things: z.partialRecord(z.enum(TROUBLES), phrases).default({}),
    lacking: phrases,
    /** Whole phrases that say such a lack has ended, and words that say so beside its things ("back" beside "water"). */
    over: lists(TROUBLES),
    ended: lists(TROUBLES),
    /** Words for ceasing: of water or rain that does not, nothing is lacking. `endless` says so by itself ("non stop"). */
    ceasing: phrases,
    endless: phrases,
  }),
  /** What can be lost as a whole, and the words that say so of it; `eaten` says so only of `whole` things. */
  losses: z.strictObject({
    phrases: lists(LOSSES),
    things: lists(LOSSES),
    whole: phrases,
    gone: phrases,
    eaten: phrases,
    /** Words for a part: where one stands, not all is lost. */
    part: phrases,
  }),
  asks: z.strictObject({
    phrases: lists(['next', 'dates', 'why', 'help', 'plots']),
    /** Words that ask only when they are the whole text. */
    alone: lists(['next', 'dates', 'why', 'help', 'plots']),
  }),
  sums: z.strictObject({ opening: lists(SUMS), asking: lists(SUMS) }),
  answers: lists(['yes', 'no']),
  account: lists(['join', 'language', 'stop', 'start', 'forget', 'name', 'phone']),
  /**
   * Plain requests to be left alone. `whole`: a request by itself. `asks` ("cease") or `refuses` ("dont want") are one together
   * with `about` ("messages"). `idle` may stand in a request, `polite` too, which also makes a question one ("can you"). `lone`
   * may stand beside STOP, START and FORGET ME, and in a request. `alone` is a request where it is the whole text ("no texts").
   * `how` ("how do i") makes of a request, or of one of its verbs, a question how to end the texts. A text with any other word is
   * no request.
   */
  optOut: optOut.prefault({}),
  undo: phrases,
  agent: z.strictObject({
    ...lists(['flood', 'tell', 'ready', 'late', 'turns', 'tiller', 'add', 'block']).shape,
  }),
  /** Commands that are heard on an agent's phone only. */
  agentOnly: lists([...AGENT_ONLY, 'everyone']),
  /**
   * What handsets and networks send by themselves; `*` stands for up to six words. `notices` are words that no grower writes,
   * wherever they stand; `opens` begins such a text; `away` makes one where nothing else is said but `beside`.
   */
  automatic: lists(['notices', 'opens', 'away', 'beside']).prefault({}),
  languages: z.record(z.string(), z.array(phrase)).default({}),
  tillage: z.partialRecord(z.enum(['hoe', 'animals', 'two-wheel', 'none']), phrases).default({}),
  greetings: phrases,
  /** "Sam here", "this is Sam": words beside which a name stands. */
  introductions: z.strictObject({ before: phrases, after: phrases }),
  signatures: phrases,
  /** Words that may stand between the words of a phrase ("let THE water in"). */
  articles: phrases,
  /** Words that change nothing. */
  fillers: phrases,
  /** Ordinary words that are never taken for a misspelt word of ours; as many in a line as fit. */
  knownWords: phrases,
  /** Stems of ordinary verbs, known in every form that the patterns give. */
  knownStems: phrases,
});

export type WordList = z.infer<typeof wordListShape>;
export type Verb = z.infer<typeof verb>;
