/** What to answer when a text could not be read: ask back, briefly; nothing is recorded. */
import { holds } from '../agronomy/frame.ts';
import type { Activity } from '../agronomy/season.ts';
import type { Reading, Unclear } from '../hear/reading.ts';
import { parseDay } from '../plan/day.ts';
import type { Message } from '../say/message.ts';
import { leave, numbered, type Option } from './numbered.ts';
import { activityName, doneWords, officer } from './phrases.ts';
import { findPlots } from './plots.ts';
import { type Part, saying } from './turn.ts';
import type { World } from './world.ts';

/** Texts that were not understood; a day that cannot be, or a greeting, was. */
const MISSES: readonly Unclear['why'][] = [
  'nothing-known',
  'which-activity',
  'which-plot',
  'two-meanings',
  'too-long',
];

/** Asks back; the second text in a row that could not be read goes to the agent's list, and the grower is told. */
export function answerMiss(world: World, unclear: Unclear, misses: number, words: string): Part {
  const part = answerUnclear(world, unclear);
  const [plot] = world.plots;
  if (part.standing || !MISSES.includes(unclear.why)) return part;
  if (misses === 0 || !plot) return { ...part, missed: true };
  return {
    ...saying('unclear.again', officer(world)),
    effects: [{ do: 'note-trouble', seasonId: plot.seasonId, what: 'not-understood', until: null, words }],
  };
}

/** Asks back. Two possible meanings become a numbered question; the last option is always "none". */
function answerUnclear(world: World, unclear: Unclear): Part {
  const said = unclear.said ?? { key: 'unclear.that-day' };
  switch (unclear.why) {
    case 'two-meanings':
    case 'which-plot':
      return unclear.choices.length > 0 ? choices(world, unclear.choices) : nothingKnown(world);
    case 'impossible-date':
    case 'future-date':
      return saying(`unclear.${unclear.why}`, { said });
    case 'which-activity':
    case 'which-day':
    case 'empty':
    case 'greeting':
    case 'too-long':
      return saying(`unclear.${unclear.why}`);
    case 'nothing-known':
      return nothingKnown(world);
  }
}

const nothingKnown = (world: World) => saying('unclear.nothing-known', { phone: world.scheme.officer.phone });

/** Of several kinds of work only those that some plot of this phone has: "sowed" is the nursery where seedlings are planted. */
function possible(world: World, readings: readonly Reading[]): readonly Reading[] {
  const ways = world.plots.map(({ season }) => season.way);
  const has = (activity: Activity) =>
    world.rulebook.steps.some(
      (step) => step.activity === activity && ways.some((way) => holds(step.when, way)),
    );
  const kept = readings.filter((reading) => reading.kind !== 'report' || has(reading.activity));
  return kept.length > 0 ? kept : readings;
}

function choices(world: World, all: readonly Reading[]): Part {
  const readings = possible(world, all);
  const options = readings
    .slice(0, 3)
    .map(
      (reading): Option => ({ what: describe(world, reading), leads: { do: 'read', readings: [reading] } }),
    );
  return numbered([{ key: 'ask.two-meanings' }], [...options, leave('choice.nothing')]);
}

/** A reading in a few words, as one option of a question. */
function describe(world: World, reading: Reading): Message {
  switch (reading.kind) {
    case 'report':
      return describeReport(world, reading);
    case 'not-done':
      return reading.activity
        ? { key: 'choice.not-done', values: { activity: activityName(reading.activity) } }
        : { key: 'choice.other' };
    case 'intend':
      return { key: 'choice.intend', values: { activity: activityName(reading.activity) } };
    case 'ask':
      return reading.activity
        ? { key: 'choice.dates', values: { activity: activityName(reading.activity) } }
        : { key: 'choice.ask' };
    case 'trouble':
      return { key: 'choice.trouble' };
    case 'sum':
    case 'answer':
    case 'account':
    case 'undo':
    case 'agent':
      return { key: 'choice.other' };
  }
}

function describeReport(world: World, reading: Reading & { kind: 'report' }): Message {
  const on = reading.on === null ? null : parseDay(reading.on);
  const found = findPlots(world, reading.plots);
  if (reading.stage === 'started' || found.kind !== 'plots') {
    const key = reading.stage === 'started' ? 'choice.started' : 'choice.finished';
    return on === null
      ? { key: 'choice.undated', values: { activity: activityName(reading.activity) } }
      : { key, values: { activity: activityName(reading.activity), day: { day: on } } };
  }
  const done = doneWords(reading.activity, found.plots);
  return on === null
    ? { key: 'choice.report-unknown', values: { done } }
    : { key: 'choice.report', values: { done, day: { day: on } } };
}
