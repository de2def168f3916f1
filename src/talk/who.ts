/** Who is texting, where several people share a phone: asked once a session, and only where the answer hangs on it. */
import type { AccountReading, Reading } from '../hear/reading.ts';
import { bareName } from '../scheme/person-name.ts';
import type { TextEvent } from './event.ts';
import { numbered, type Option } from './numbered.ts';
import { type HeldText, type Memory, NOTHING_HELD, type Standing } from './state.ts';
import { type Part, saying } from './turn.ts';
import type { Person, World } from './world.ts';

/** So many people fit into one question; where more share a phone, the others text their names. */
const MOST_NAMED = 9;

/** The world of one who is known to be texting: the phone's only user, or who said so within the hour. */
export function withSpeaker(world: World, { speaker }: Memory): World {
  const [only, ...others] = world.people;
  if (others.length === 0) return only ? { ...world, speaker: only } : world;
  const known = speaker && speaker.untilMs > world.nowMs ? personOf(world, speaker.personId) : undefined;
  return known ? { ...world, speaker: known } : world;
}

/** The language of who texts; where that is not known, of the one whose plots are named, then the one it was read in. */
export function spokenLang({ speaker, people, plots }: World, event: TextEvent): string | undefined {
  if (speaker) return speaker.lang;
  const named = new Set(event.heard.readings.flatMap((one) => ('plots' in one ? one.plots : [])));
  const owners = new Set(plots.filter(({ number }) => named.has(number)).map(({ ownerId }) => ownerId));
  const [owner, second] = people.filter(({ id }) => owners.has(id));
  if (owner && !second) return owner.lang;
  return (people.find(({ lang }) => lang === event.lang) ?? people[0])?.lang;
}

/** Asks who texts where readings cannot be answered without; null where they can, and on an agent's phone. */
export function asksWho(world: World, held: HeldText): Part | null {
  if (world.speaker || world.group || world.people.length < 2) return null;
  if (!held.readings.some((reading) => hangsOnWho(world, reading))) return null;
  const { people } = world;
  const options = people.map(
    (person): Option => ({
      what: { key: 'who.one', values: { name: person.name } },
      leads: { ...held, do: 'speak', personId: person.id },
    }),
  );
  const key = people.length > MOST_NAMED ? 'who.ask-or-name' : 'who.ask';
  return numbered([{ key }], options, MOST_NAMED);
}

const OF_THE_PERSON: readonly AccountReading['what'][] = ['language', 'forget', 'name', 'phone'];
const OF_PLOTS = ['next', 'dates', 'plots'];

function hangsOnWho(world: World, reading: Reading): boolean {
  switch (reading.kind) {
    case 'account':
      return reading.what === 'phone' ? reading.text === undefined : OF_THE_PERSON.includes(reading.what);
    case 'report':
    case 'not-done':
    case 'intend':
    case 'trouble':
      return severalOwn(world) && isOpen(reading.plots);
    case 'ask':
      return severalOwn(world) && OF_PLOTS.includes(reading.about) && isOpen(reading.plots);
    default:
      return false;
  }
}

const isOpen = (plots: readonly string[]) => plots.length === 0 || plots.includes('all');
const severalOwn = ({ plots }: World) => new Set(plots.map(({ ownerId }) => ownerId)).size > 1;

/** What was texted before the line asked who it is from. */
export function heldFrom(standing: Standing): HeldText {
  const [first] = standing.at === 'choose' ? standing.options : [];
  return first?.do === 'speak' ? first : NOTHING_HELD;
}

/** A name of the phone's people as the whole text, or behind "my name is": who is texting now; null for anything else. */
export function namedSelf(world: World, event: TextEvent): Person | null {
  if (world.people.length < 2 || world.group) return null;
  const [reading] = event.heard.readings;
  const isName = reading?.kind === 'account' && reading.what === 'name';
  const said = isName ? (reading.text ?? '') : event.heard.unclear ? event.text : '';
  const wanted = bareName(said.replace(/[\s.!,]+$/u, ''));
  const [found, second] = world.people.filter(({ name }) => bareName(name) === wanted);
  return found && !second ? found : null;
}

/** Goes on as the person who was picked; `read` answers what was texted before the question. */
export function speakAs(
  world: World,
  personId: string,
  { readings }: HeldText,
  read: (world: World) => readonly Part[],
): readonly Part[] {
  const person = personOf(world, personId);
  if (!person) return [saying('choice.no-question')];
  const parts = readings.length > 0 ? read({ ...world, speaker: person }) : [nowTexts(person)];
  return parts.map((part) => ({ lang: person.lang, ...part, speaker: person.id }));
}

const nowTexts = ({ name }: Person) => saying('who.now', { name });

const personOf = ({ people }: World, personId: string) => people.find(({ id }) => id === personId);
