/** What one text leads to: sentences to say, effects, and where the conversation then stands. Built up by the rooms of talk. */
import type { SeasonReset } from '../agronomy/season.ts';
import type { Message } from '../say/message.ts';
import type { AgentMemory } from './agent/deed.ts';
import type { Effect } from './effect.ts';
import type { Sentence } from './sentence.ts';
import {
  type Memory,
  SESSION_MS,
  type Standing,
  stateAt,
  type TalkState,
  type Topic,
  type Undoable,
  type WrongCodes,
} from './state.ts';
import type { World } from './world.ts';

export type { Sentence } from './sentence.ts';

/** A part of a turn; parts are joined in order, the last standing and topic win. */
export interface Part {
  readonly say: readonly Sentence[];
  readonly effects?: readonly Effect[];
  readonly standing?: Standing;
  readonly topic?: Topic;
  /** The season whose old seedlings this part asks about. */
  readonly asks?: string;
  /** This part took back a change: there is nothing more of it to undo. */
  readonly undone?: true;
  /** The language that the turn is said in, where it is not the person's language so far. */
  readonly lang?: string;
  /** The text could not be read, and was told so. */
  readonly missed?: true;
  /** What an agent's phone keeps from now on, where it is other than before. */
  readonly agent?: Partial<AgentMemory>;
  /** Id of who texts, from now on known for the session. */
  readonly speaker?: string;
  /** A wrong code or name was texted. */
  readonly wrongCodes?: WrongCodes;
}

export interface Turn {
  readonly state: TalkState | null;
  readonly effects: readonly Effect[];
}

/** Parts of an answer to an agent. */
export const AGENT_PARTS = 3;

/** A part that only says one sentence. */
export function saying(key: string, values?: Message['values']): Part {
  return { say: [values ? { key, values } : { key }] };
}

/** A sentence that may be left out when the text is too long. */
export function spare(key: string, values?: Message['values']): Sentence {
  return values ? { key, values, spare: true } : { key, spare: true };
}

/** Joins parts into the turn: all effects in order, one text at the end. */
export function turnOf(world: World, lang: string, all: readonly Part[], before: Memory): Turn {
  const parts = oneQuestion(all);
  const sentences = together(parts).flatMap((part) => part.say);
  const spoken = parts.findLast((part) => part.lang !== undefined)?.lang ?? lang;
  const budget = world.group ? { parts: AGENT_PARTS } : {};
  const said: Effect[] =
    sentences.length > 0 ? [{ do: 'say', lang: spoken, saying: { sentences }, ...budget }] : [];
  const standing = standingAfter(parts);
  const topic = parts.findLast((part) => part.topic)?.topic ?? before.topic;
  const asked = [
    ...new Set([...before.asked, ...parts.flatMap(({ asks }) => (asks === undefined ? [] : [asks]))]),
  ];
  const effects = parts.flatMap((part) => part.effects ?? []);
  const undone = parts.some((part) => part.undone);
  const undoable = undone ? null : undoableAfter(world, effects, before.undoable);
  const misses = parts.some((part) => part.missed) ? before.misses + 1 : 0;
  const agent: AgentMemory = Object.assign({}, before.agent, ...parts.map((part) => part.agent));
  const speaker = speakerAfter(world, parts, before);
  const wrongCodes = parts.findLast((part) => part.wrongCodes)?.wrongCodes ?? before.wrongCodes;
  const memory: Memory = { topic, asked, undoable, misses, agent, speaker, wrongCodes };
  return {
    state: standing.at === 'idle' && isEmpty(memory) ? null : stateAt(world.nowMs, standing, memory),
    effects: [...effects, ...said],
  };
}

/** Each text of who is known to be texting makes the session longer. */
function speakerAfter(world: World, parts: readonly Part[], { speaker }: Memory): Memory['speaker'] {
  const known = speaker && speaker.untilMs > world.nowMs ? speaker.personId : undefined;
  const personId = parts.findLast((part) => part.speaker !== undefined)?.speaker ?? known;
  return personId === undefined ? null : { personId, untilMs: world.nowMs + SESSION_MS };
}

const isEmpty = ({ topic, asked, undoable, misses, agent, speaker, wrongCodes }: Memory) =>
  speaker === null &&
  wrongCodes === null &&
  topic === null &&
  asked.length === 0 &&
  undoable === null &&
  misses === 0 &&
  agent.pending === null &&
  agent.wrong === null &&
  agent.rest.length === 0;

/** The newest of what can be undone: a change of seasons, unless something was recorded or taken back since. */
function undoableAfter(world: World, effects: readonly Effect[], before: Undoable | null): Undoable | null {
  const changes = effects.filter((effect) => effect.do === 'change-season');
  if (changes.length > 0) {
    const seasons = changes.map(({ seasonId, change }) => ({
      seasonId,
      before: asBefore(world, seasonId, Object.keys(change) as (keyof SeasonReset)[]),
    }));
    return { on: world.today, seasons };
  }
  const newer = effects.some(
    ({ do: what }) => what === 'record' || what === 'record-rain' || what === 'undo',
  );
  return newer ? null : before;
}

function asBefore(world: World, seasonId: string, keys: readonly (keyof SeasonReset)[]): SeasonReset {
  const season = world.plots.find((plot) => plot.seasonId === seasonId)?.season;
  return Object.fromEntries(keys.map((key) => [key, season?.[key] ?? null]));
}

/** Of several questions only the first is asked, last in the text; the others have to be texted again. */
function oneQuestion(parts: readonly Part[]): readonly Part[] {
  const questions = parts.filter(asks);
  const [first] = questions;
  if (!first || parts.length === 1) return parts;
  const told = parts.filter((part) => !asks(part));
  const rest: readonly Part[] = questions.length > 1 ? [{ say: [{ key: 'ask.rest' }] }] : [];
  return [...told, ...rest, first];
}

const asks = ({ standing }: Part) => standing !== undefined && standing.at !== 'idle';

/** Several answers in one text: the head of each stands, the rest as far as there is room. A question stands whole. */
function together(parts: readonly Part[]): readonly Part[] {
  if (parts.length < 2) return parts;
  return parts.map((part) =>
    asks(part)
      ? part
      : { ...part, say: part.say.map((one, index) => (index === 0 ? one : { ...one, spare: true })) },
  );
}

/** The last standing; a question remembers whether its text recorded something, for UNDO. */
function standingAfter(parts: readonly Part[]): Standing {
  const standing = parts.findLast((part) => part.standing)?.standing ?? { at: 'idle' };
  const recorded = parts.some(({ effects = [] }) => effects.some((effect) => effect.do === 'record'));
  const asks = standing.at === 'choose' || standing.at === 'which-plot';
  return recorded && asks ? { ...standing, kept: true } : standing;
}
