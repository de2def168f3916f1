/**
 * A number may have gone to someone else: after long silence, or when a carrier called it out of service, nothing personal is
 * said before whoever texts has answered a neutral question. Who says to be new gets the number without its past.
 */
import { clean } from '../hear/fold.ts';
import type { Reading } from '../hear/reading.ts';
import { bareName } from '../scheme/person-name.ts';
import type { TextEvent } from './event.ts';
import { numbered, type Option } from './numbered.ts';
import { officer } from './phrases.ts';
import { type HeldText, type Memory, NO_MEMORY, NOTHING_HELD, type Outcome } from './state.ts';
import type { Texted } from './texted.ts';
import { type Part, saying, type Turn, turnOf } from './turn.ts';
import type { World } from './world.ts';
import { hasTriedTooOften, oneMoreWrong } from './wrong-tries.ts';

/** Asks whether growers of the line still have the number; what is held is answered after a yes. */
export function askWhose(world: World, held: HeldText): Part {
  const options: readonly Option[] = [
    { what: { key: 'whose.ours' }, leads: { ...held, do: 'vouch' } },
    { what: { key: 'whose.new' }, leads: { do: 'ask-release' } },
  ];
  const { languages, name } = world.scheme;
  const spoken = held.language !== null && languages.includes(held.language) ? { lang: held.language } : {};
  return { ...numbered([{ key: 'whose.ask', values: { scheme: name } }], options), ...spoken };
}

/** The same question without a text before it, in place of a reminder. */
export function askWhoseFirst(world: World, lang: string): Turn {
  return turnOf(world, lang, [askWhose(world, NOTHING_HELD)], NO_MEMORY);
}

/** Answers on a number that is in doubt; `read` answers what was texted before the question. */
export function answerDoubted(
  { world, standing, event, pick, memory }: Texted,
  read: (held: HeldText) => readonly Part[],
): readonly Part[] {
  if (world.group && hasTriedTooOften(world, memory)) return [saying('whose.locked')];
  if (standing.at === 'agent-name') return [agentNamed(world, event, memory)];
  const options = standing.at === 'choose' && isWhose(standing.options) ? standing.options : [];
  const outcome = pick === null ? undefined : options[pick - 1];
  const held = heldBy(options);
  if (outcome?.do === 'vouch') return world.group ? [askAgentName()] : vouched(outcome, read);
  if (outcome?.do === 'ask-release') return [world.group ? saying('phone.agents') : askRelease(held)];
  if (outcome?.do === 'release') return [isBare(event.text) ? released(world) : askRelease(held)];
  const said = { words: event.text, readings: event.heard.readings, language: event.details.language };
  const part = askWhose(world, pick === null && !starts(event) ? said : held);
  return [starts(event) ? { ...part, effects: [{ do: 'start' }] } : part];
}

/** Before anything is taken away. */
function askRelease(held: HeldText): Part {
  const options: readonly Option[] = [
    { what: { key: 'whose.keep' }, leads: { ...held, do: 'vouch' } },
    { what: { key: 'whose.take-off' }, leads: { do: 'release' } },
  ];
  return numbered([{ key: 'whose.sure' }], options);
}

/** A number and nothing else: what takes plots off a phone is not read out of words. */
const isBare = (text: string): boolean => /^[^\p{L}\p{N}]*\d[^\p{L}\p{N}]*$/u.test(clean(text));

/** An opt-in holds at once; what it would be told waits. */
const starts = ({ heard }: TextEvent): boolean =>
  heard.readings.some((reading) => reading.kind === 'account' && reading.what === 'start');

const isWhose = ([first]: readonly Outcome[]) => first?.do === 'vouch';
const heldBy = ([first]: readonly Outcome[]): HeldText => (first?.do === 'vouch' ? first : NOTHING_HELD);

const NEXT: Reading = { kind: 'ask', about: 'next', plots: [], assumed: [] };

function vouched(held: HeldText, read: (held: HeldText) => readonly Part[]): readonly Part[] {
  const [first, ...rest] = read(held.readings.length > 0 ? held : { ...held, readings: [NEXT] });
  return [{ say: [], ...first, effects: [{ do: 'vouch' }, ...(first?.effects ?? [])] }, ...rest];
}

const released = (world: World): Part => ({
  ...saying('whose.released', officer(world)),
  effects: [{ do: 'release-phone' }],
});

/** An agent's phone moves a whole scheme: there a yes is not enough. */
const askAgentName = (): Part => ({ ...saying('whose.agent-name'), standing: { at: 'agent-name' } });

function agentNamed(world: World, event: TextEvent, memory: Memory): Part {
  const isAgents = world.people.some(
    ({ role, name }) => role === 'agent' && bareName(name) === bareName(event.text),
  );
  if (isAgents) return { ...saying('whose.agent-again'), effects: [{ do: 'vouch' }] };
  return {
    ...saying('whose.agent-wrong'),
    standing: { at: 'agent-name' },
    wrongCodes: oneMoreWrong(world, memory),
  };
}
