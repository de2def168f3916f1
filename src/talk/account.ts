/** STOP, START, FORGET ME, names and languages: what concerns the person and the number rather than a plot. */
import type { AccountReading } from '../hear/reading.ts';
import { leave, numbered } from './numbered.ts';
import { ownTurns } from './own-turns.ts';
import { answerPhone, codeOf } from './second-phone.ts';
import type { Memory, Standing } from './state.ts';
import { type Part, saying } from './turn.ts';
import type { Person, World } from './world.ts';

/** Answers for the person who texts; on an agent's phone for the first of its people. */
export function answerAccount(
  world: World,
  reading: AccountReading,
  language: string | null,
  memory: Memory,
): Part {
  const person = world.speaker ?? world.people[0];
  if (!person) return saying('choice.no-question');
  switch (reading.what) {
    case 'stop':
      return stopTexts(world);
    case 'start':
      return startTexts(world);
    case 'forget':
      // Whoever forges an agent's number must not take the agent off the line.
      if (world.group) return saying('agent.no-forget');
      return numbered(
        [{ key: 'account.forget-sure' }],
        [
          { what: { key: 'account.forget-yes' }, leads: { do: 'forget', personId: person.id } },
          leave('choice.keep'),
        ],
      );
    case 'name': {
      if (world.group) return saying('agent.no-forget');
      const name = (reading.text ?? '').trim();
      if (name === '') return saying('account.name-how');
      return {
        ...saying('account.renamed', { name }),
        effects: [{ do: 'rename', personId: person.id, name }],
      };
    }
    case 'language':
      return setLanguage(world, person, language);
    case 'join':
      return saying('account.known', { name: person.name });
    case 'phone':
      return answerPhone(world, codeOf(reading.text), memory);
  }
}

/** Opt-out is confirmed once; a second STOP gets no answer. An order that waits for its code is dropped by either. */
export function stopTexts(world: World): Part {
  const dropped = { agent: { pending: null, rest: [] } };
  return world.stopped
    ? { say: [], ...dropped }
    : { ...saying('account.stopped'), effects: [{ do: 'stop' }], ...dropped };
}

/** Opt-in; with what was told meanwhile, where the number is surely its people's. */
export function startTexts(world: World): Part {
  const told = world.doubted ? [] : ownTurns(world);
  return {
    say: [{ key: 'account.started' }, ...told.map((one) => ({ ...one, spare: true }))],
    effects: [{ do: 'start' }],
  };
}

/** Carriers take this word, alone, for START: they send again, so we must too. */
const CARRIERS_YES = /^[^\p{L}\p{N}]*yes[^\p{L}\p{N}]*$/iu;

/** Whether a text brings back the texts of a number that has stopped them, where nothing was asked that it could answer. */
export const optsIn = (world: World, standing: Standing, text: string): boolean =>
  world.stopped && standing.at === 'idle' && CARRIERS_YES.test(text);

function setLanguage(world: World, person: Person, language: string | null): Part {
  const { languages } = world.scheme;
  if (language === null || !languages.includes(language))
    return saying('account.language-none', { languages: { list: languages } });
  return {
    ...saying('account.language'),
    lang: language,
    effects: [{ do: 'set-language', personId: person.id, lang: language }],
  };
}
