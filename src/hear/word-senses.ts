/** Turns a checked word list into pairs of phrase and sense: the only file that knows both shapes. */

import { FORM_SAYS, FORMS, type Form, MARKS, TURNED, type Turned } from './forms.ts';
import type { Sense } from './sense.ts';
import type { Verb, WordList } from './word-list.ts';

export interface PhraseSense {
  readonly phrase: string;
  readonly sense: Sense;
  /** Of a grown word: how many letters of it a pattern put in front, which tell nothing of the verb. */
  readonly lead?: number;
}

const each = (phrases: readonly string[], sense: Sense): PhraseSense[] =>
  phrases.map((phrase) => ({ phrase, sense }));

/** Every list of a section under one role, the section's key as value. */
const section = (
  lists: Readonly<Record<string, readonly string[] | undefined>>,
  role: Sense['role'],
): PhraseSense[] => Object.entries(lists).flatMap(([value, phrases]) => each(phrases ?? [], { role, value }));

const numbered = (words: Readonly<Record<string, number>>, role: Sense['role']): PhraseSense[] =>
  Object.entries(words).map(([phrase, n]) => ({ phrase, sense: { role, value: role, n } }));

const ranked = (lists: readonly (readonly string[])[], role: Sense['role']): PhraseSense[] =>
  lists.flatMap((phrases, i) => each(phrases, { role, value: role, n: i + 1 }));

/** A stem of several words grows where "~" stands, else at its first word: "top dress~" with "~ed" is "top dressed". */
function grow(stem: string, pattern: string): string {
  const words = stem.split(' ');
  const marked = words.findIndex((word) => word.endsWith('~'));
  const at = Math.max(0, marked);
  return words.map((word, i) => (i === at ? pattern.replace('~', word.replace('~', '')) : word)).join(' ');
}

interface Grown {
  readonly phrase: string;
  readonly lead: number;
}

const leadOf = (pattern: string) => pattern.slice(pattern.lastIndexOf(' ') + 1).indexOf('~');

/** In a language of two scripts no stem takes an ending of the other. */
const isLatin = (text: string) => /\p{Script=Latin}/u.test(text);
const fits = (stem: string, pattern: string) => pattern === '~' || isLatin(stem) === isLatin(pattern);

function grown(stems: readonly string[], patterns: readonly string[] = []): Grown[] {
  return stems.flatMap((stem) =>
    patterns
      .filter((pattern) => fits(stem, pattern))
      .map((pattern) => ({ phrase: grow(stem, pattern), lead: leadOf(pattern) })),
  );
}

type Growth = Pick<WordList, 'patterns' | 'loanPatterns'>;

function verbForms(verb: Verb, { patterns, loanPatterns }: Growth, form: Form | Turned): Grown[] {
  return [
    ...grown(verb.stems, patterns[form]),
    ...grown(verb.loans, loanPatterns[form]),
    ...verb[form].map((phrase) => ({ phrase, lead: 0 })),
  ];
}

const turnedForms = Object.keys(TURNED) as Turned[];

/** Forms that carry a mark inside the word are a verb and that mark. */
function turnedVerb(value: string, verb: Verb, role: 'act' | 'verb', growth: Growth): PhraseSense[] {
  return turnedForms.flatMap((turned) => {
    const { form, mark } = TURNED[turned];
    return verbForms(verb, growth, turned).flatMap((one) => [
      { ...one, sense: { role, value, form } },
      { ...one, sense: { role: 'mark', value: mark } as const },
    ]);
  });
}

function verbs(list: Readonly<Record<string, Verb | undefined>>, role: 'act' | 'verb', growth: Growth) {
  return Object.entries(list).flatMap(([value, verb]) =>
    verb === undefined
      ? []
      : [
          ...FORMS.flatMap((form) =>
            verbForms(verb, growth, form).map((one) => ({ ...one, sense: { role, value, form } })),
          ),
          ...turnedVerb(value, verb, role, growth),
        ],
  );
}

const MARK_NAMES: readonly string[] = MARKS;
const senseNamed = (value: string): Sense => ({ role: MARK_NAMES.includes(value) ? 'mark' : 'stage', value });

type Leading = Exclude<WordList['helpers'][number], { verb: string }>;

/** What a verb that leads another says in each form: its own, or what the form itself turns it into. */
function helperSenses({ says, doing = says }: Leading, form: Form | Turned): Sense[] {
  const [own, going] = [senseNamed(says), senseNamed(doing)];
  const turn = FORM_SAYS[form];
  if (form === 'theirs' || form === 'theirOpen') return [own, senseNamed('others')];
  if (form === 'theirGoing') return [going, senseNamed('others')];
  if (turn) return [form === 'future' && says === 'not' ? own : senseNamed(turn)];
  if (form === 'doing' || form === 'present' || form === 'going') return [going];
  if (form === 'linking') return [own.role === 'stage' ? senseNamed('please') : own];
  return [own];
}

const helpers = ({ helpers: list, patterns }: WordList): PhraseSense[] =>
  list
    .filter((helper) => 'says' in helper)
    .flatMap((helper) =>
      [...FORMS, ...turnedForms].flatMap((form) =>
        grown(helper.stems, patterns[form]).flatMap((one) =>
          helperSenses(helper, form).map((sense) => ({ ...one, sense })),
        ),
      ),
    );

function dates(list: WordList['dates']): PhraseSense[] {
  const { offsets, either, weekdays, months, past, ...rest } = list;
  return [
    ...numbered(offsets, 'offset'),
    ...numbered(either, 'either'),
    ...each(past, { role: 'date', value: 'past' }),
    ...ranked(weekdays, 'weekday'),
    ...ranked(months, 'monthName'),
    ...section(rest, 'date'),
  ];
}

const units = (list: WordList['units']): PhraseSense[] =>
  Object.entries(list).flatMap(([value, unit]) => each(unit.words, { role: 'unit', value }));

const losses = (list: WordList['losses']): PhraseSense[] => [
  ...section(list.phrases, 'loss'),
  ...section(list.things, 'lossThing'),
  ...each(list.whole, { role: 'lossThing', value: 'whole' }),
  ...section({ all: list.gone, eaten: list.eaten }, 'gone'),
  ...each(list.part, { role: 'lossPart', value: 'part' }),
];

const shares = (list: WordList['shares']): PhraseSense[] => [
  ...numbered(list.words, 'share'),
  ...numbered(list.parts, 'sharePart'),
  ...each(list.percent, { role: 'percent', value: 'percent' }),
  ...section({ rest: list.rest, of: list.restOf }, 'rest'),
];

function smallLists(list: WordList): PhraseSense[] {
  return [
    ...each(list.troubles.lacking, { role: 'lacking', value: 'lacking' }),
    ...each(list.undo, { role: 'undo', value: 'undo' }),
    ...each(list.greetings, { role: 'greeting', value: 'greeting' }),
    ...each(list.signatures, { role: 'signature', value: 'signature' }),
    ...each(list.articles, { role: 'article', value: 'article' }),
    ...each(list.fillers, { role: 'filler', value: 'filler' }),
    ...each(list.numbers.endings, { role: 'ending', value: 'ending' }),
  ];
}

/** Phrases for all that name plots themselves ("every plot"): a thing behind them is not what they are all of. */
function namingPhrases({ one, many, all }: WordList['plots']): string[] {
  const names = new Set([...one, ...many]);
  return all.filter((phrase) => phrase.split(' ').some((word) => names.has(word)));
}

/** A word that grows from two stems is of the longer one ("nililoweka" is "lowek", and no "wek"); a listed one is as listed. */
function ofLongestStem(all: readonly PhraseSense[]): PhraseSense[] {
  const least = new Map<string, number>();
  for (const { phrase, lead = 0 } of all) least.set(phrase, Math.min(lead, least.get(phrase) ?? lead));
  return all.filter(({ phrase, lead = 0 }) => lead === least.get(phrase));
}

/** Every phrase of the list with what it means; a phrase may come more than once. */
export function wordSenses(list: WordList): PhraseSense[] {
  return [
    ...ofLongestStem([
      ...verbs(list.activities, 'act', list),
      ...verbs(list.verbs, 'verb', list),
      ...helpers(list),
      ...section(list.marks, 'mark'),
      ...section(list.stages, 'stage'),
    ]),
    ...section(list.things, 'thing'),
    ...section(list.plots, 'plot'),
    ...each(namingPhrases(list.plots), { role: 'plot', value: 'every' }),
    ...section(list.joins, 'join'),
    ...numbered(list.numbers.words, 'number'),
    ...numbered(list.numbers.ordinals, 'ordinal'),
    ...dates(list.dates),
    ...units(list.units),
    ...section(list.measures, 'measure'),
    ...section(list.troubles.phrases, 'trouble'),
    ...section(list.troubles.alone, 'troubleAlone'),
    ...section(list.troubles.lasting, 'lasting'),
    ...section(list.troubles.things, 'troubleThing'),
    ...section(list.troubles.over, 'over'),
    ...section(list.troubles.ended, 'ended'),
    ...losses(list.losses),
    ...shares(list.shares),
    ...section(list.rain, 'rain'),
    ...section(list.asks.phrases, 'ask'),
    ...section(list.asks.alone, 'askAlone'),
    ...section(list.sums.opening, 'sum'),
    ...section(list.sums.asking, 'sumAsk'),
    ...section(list.answers, 'answer'),
    ...section(list.account, 'account'),
    ...section(list.agent, 'agent'),
    ...section(list.languages, 'language'),
    ...section(list.tillage, 'tillage'),
    ...section(list.introductions, 'intro'),
    ...smallLists(list),
  ];
}
