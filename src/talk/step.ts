/** One step of a conversation: where it stands, what was texted, what is known -> where it then stands, and what to do. */
import { nextStep } from '../agronomy/plot-plan.ts';
import type { AskReading, Reading } from '../hear/reading.ts';
import { optsIn, startTexts, stopTexts } from './account.ts';
import { answerAgent, ofTheGroup, withGroupPlots } from './agent/answer-agent.ts';
import { answerPeople } from './answer-people.ts';
import { answerAsk } from './asks.ts';
import type { TextEvent } from './event.ts';
import { answerStranger, continueJoin } from './join.ts';
import { officer, wordFor } from './phrases.ts';
import { planned } from './planned.ts';
import { answerPhone, codeIn } from './second-phone.ts';
import { answerPlot, followPick } from './settle.ts';
import { liveState, type Memory, NO_MEMORY, type Standing, type TalkState } from './state.ts';
import { answerSum } from './sum-answer.ts';
import { surveyed, surveyReported } from './sum-level.ts';
import { answerSpot } from './survey.ts';
import { undoLast } from './take-back.ts';
import { takeReports } from './take-reports.ts';
import { answerTrouble } from './troubles.ts';
import { type Part, saying, type Turn, turnOf } from './turn.ts';
import { answerMiss } from './unclear.ts';
import { answerIntend, answerNotDone } from './unsure.ts';
import { whatWasDone } from './what-was-done.ts';
import { spokenLang, withSpeaker } from './who.ts';
import type { World } from './world.ts';

/** Pure: the same state, event and world give the same turn. The turn has at most one `say`. */
export function step(state: TalkState | null, event: TextEvent, given: World): Turn {
  const live = liveState(state, given.nowMs);
  const memory: Memory = live ?? NO_MEMORY;
  const standing = live?.standing ?? { at: 'idle' };
  const world = withSpeaker(given, memory);
  const lang = spokenLang(world, event) ?? joinLang(live?.standing, event) ?? event.lang;
  const parts =
    world.people.length > 0
      ? knownParts(standing, event, withGroupPlots(world, event, memory.topic), memory)
      : [strangerPart(standing, event, world, memory)];
  return turnOf(world, lang, parts, memory);
}

/** Joining goes on in the language that it began in. */
const joinLang = (standing: Standing | undefined, event: TextEvent) =>
  standing?.at === 'join' && !asksToJoin(event) ? standing.soFar.lang : undefined;

const asksToJoin = ({ heard }: TextEvent) =>
  heard.readings.some((reading) => reading.kind === 'account' && reading.what === 'join');

function strangerPart(standing: Standing, event: TextEvent, world: World, memory: Memory): Part {
  const account = event.heard.readings.find((reading) => reading.kind === 'account');
  if (account?.kind === 'account' && account.what === 'stop') return stopTexts(world);
  if (account?.kind === 'account' && account.what === 'start' && world.stopped) return startTexts(world);
  if (optsIn(world, standing, event.text)) return startTexts(world);
  if (account?.kind === 'account' && account.what === 'phone')
    return answerPhone(world, codeIn(event), memory);
  if (standing.at === 'idle' && codeIn(event) !== null) return answerPhone(world, codeIn(event), memory);
  return standing.at === 'join' && !asksToJoin(event)
    ? continueJoin(world, standing.step, standing.soFar, event)
    : answerStranger(world, event);
}

function knownParts(standing: Standing, event: TextEvent, world: World, memory: Memory): readonly Part[] {
  const { readings, unclear } = event.heard;
  const pick = pickOf(readings);
  const people = answerPeople({ world, standing, event, pick, memory }, (own, held) =>
    read(own, held.readings, held.words, memory),
  );
  if (people) return people;
  const [command] = readings;
  if (command?.kind === 'agent') return [answerAgent(world, command, event, memory.agent)];
  if (optsIn(world, standing, event.text) && memory.agent.pending === null) return [startTexts(world)];
  const group = ofTheGroup(world, event, memory.agent, memory.topic);
  if (group) return [group];
  if (standing.at === 'which-plot') {
    const parts = answerPlot(world, standing, event, (filled) => read(world, filled, event.text, memory));
    if (parts) return parts;
  }
  if (standing.at === 'survey' && readings[0]?.kind !== 'undo') {
    const part = answerSpot(world, standing, event, (plot, depths) => surveyed(world, plot, depths));
    if (part) return [part];
  }
  if (readings[0]?.kind === 'undo' && asksUnkept(standing) && !asksToUndo(standing))
    return [saying('choice.nothing-noted')];
  const picked = readings[0]?.kind === 'undo' && asksToUndo(standing) ? 1 : pick;
  if (picked !== null && standing.at !== 'choose') return [noQuestion(world, readings)];
  if (picked !== null && standing.at === 'choose')
    return followPick(world, standing, picked, memory.asked, (chosen) =>
      read(world, chosen, event.text, memory),
    );
  if (!unclear) return keepingQuestion(standing, readings, read(world, readings, event.text, memory));
  return [whatWasDone(world, unclear) ?? answerMiss(world, unclear, memory.misses, event.text)];
}

const KEEPING: readonly AskReading['about'][] = ['why', 'dates', 'plots'];

/** A question that is answered with WHY, DATES or PLOTS stays open. */
function keepingQuestion(
  standing: Standing,
  readings: readonly Reading[],
  parts: readonly Part[],
): readonly Part[] {
  const [first, ...rest] = parts;
  const asks = readings.every((reading) => reading.kind === 'ask' && KEEPING.includes(reading.about));
  const open =
    (standing.at === 'choose' || standing.at === 'survey') &&
    asks &&
    first &&
    parts.every((part) => !part.standing);
  return open ? [{ ...first, standing }, ...rest] : parts;
}

/** A question is open and nothing was kept of the text that raised it: UNDO then only withdraws the question. */
const asksUnkept = (standing: Standing) =>
  standing.at === 'survey' ||
  ((standing.at === 'choose' || standing.at === 'which-plot') && standing.kept !== true);

/** UNDO once more, where UNDO was asked about, is a yes. */
const asksToUndo = (standing: Standing) => standing.at === 'choose' && standing.options[0]?.do === 'undo';

/** A number or a no without a question; a yes may answer a reminder, which records nothing by itself. */
function noQuestion(world: World, [only]: readonly Reading[]): Part {
  const [plot] = world.plots;
  if (only?.kind !== 'answer' || only.answer !== 'yes' || !plot) return saying('choice.no-question');
  const activity = nextStep(planned(world, plot).plan)?.activity;
  return activity
    ? saying('choice.say-what', { word: wordFor(activity), plot: plot.number })
    : saying('choice.no-question');
}

/** The number that was answered: yes is the first option, no the second. */
function pickOf(readings: readonly Reading[]): number | null {
  const [only] = readings;
  if (readings.length !== 1 || only?.kind !== 'answer') return null;
  if (only.answer === 'yes') return 1;
  return only.answer === 'no' ? 2 : only.answer.pick;
}

/** Answers readings in order; reports of one text are taken together. */
function read(world: World, readings: readonly Reading[], words: string, memory: Memory): readonly Part[] {
  const survey = surveyReported(world, readings);
  if (survey) return [survey];
  const reports = readings.flatMap((reading) => (reading.kind === 'report' ? [reading] : []));
  const first = readings.findIndex(({ kind }) => kind === 'report');
  return readings.flatMap((reading, index): readonly Part[] => {
    if (reading.kind === 'report') return index === first ? takeReports(world, reports, memory.asked) : [];
    return [readOne(world, reading, words, memory)];
  });
}

function readOne(
  world: World,
  reading: Exclude<Reading, { kind: 'report' }>,
  words: string,
  memory: Memory,
): Part {
  switch (reading.kind) {
    case 'not-done':
      return answerNotDone(world, reading);
    case 'intend':
      return answerIntend(world, reading);
    case 'trouble':
      return answerTrouble(world, reading, words);
    case 'ask':
      return answerAsk(world, reading, memory.topic);
    case 'undo':
      return undoLast(world, memory.undoable);
    case 'sum':
      return answerSum(world, reading);
    case 'agent':
      return saying('agent.not-yours', officer(world));
    case 'answer':
      return saying('choice.no-question');
    case 'account':
      return { say: [] };
  }
}
