/** Turns a checked word list into pairs of phrase and sense: the only file that knows both shapes. */
import type { Sense } from './sense.ts';
import { FORMS, type Form, type Verb, type WordList } from './word-list.ts';

export interface PhraseSense {
  readonly phrase: string;
  readonly sense: Sense;
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

function verbForms(verb: Verb, patterns: WordList['patterns'], form: Form): string[] {
  const grown = verb.stems.flatMap((stem) => (patterns[form] ?? []).map((pattern) => grow(stem, pattern)));
  return [...grown, ...verb[form]];
}

function verbs(
  list: Readonly<Record<string, Verb | undefined>>,
  role: 'act' | 'verb',
  patterns: WordList['patterns'],
) {
  return Object.entries(list).flatMap(([value, verb]) =>
    verb === undefined
      ? []
      : FORMS.flatMap((form) => each(verbForms(verb, patterns, form), { role, value, form })),
  );
}

function dates(list: WordList['dates']): PhraseSense[] {
  const { offsets, weekdays, months, past, ...rest } = list;
  return [
    ...numbered(offsets, 'offset'),
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

/** Every phrase of the list with what it means; a phrase may come more than once. */
export function wordSenses(list: WordList): PhraseSense[] {
  return [
    ...verbs(list.activities, 'act', list.patterns),
    ...verbs(list.verbs, 'verb', list.patterns),
    ...section(list.things, 'thing'),
    ...section(list.marks, 'mark'),
    ...section(list.stages, 'stage'),
    ...section(list.plots, 'plot'),
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
