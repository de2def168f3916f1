/** STOP, START, FORGET ME, names and languages: what concerns the person and the number rather than a plot. */
import type { AccountReading } from '../hear/reading.ts';
import { leave, numbered, type Option } from './numbered.ts';
import { ownTurns } from './own-turns.ts';
import type { Standing } from './state.ts';
import { type Part, saying } from './turn.ts';
import type { Person, World } from './world.ts';

/** Answers for a person whom the line knows. */
export function answerAccount(
  world: World,
  person: Person,
  reading: AccountReading,
  language: string | null,
): Part {
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
        [{ what: { key: 'account.forget-yes' }, leads: { do: 'forget' } }, leave('choice.keep')],
      );
    case 'name': {
      if (world.group) return saying('agent.no-forget');
      const name = (reading.text ?? '').trim();
      if (name === '') return saying('account.name-how');
      if (world.people.length > 1) return whoseName(world, name);
      return {
        ...saying('account.renamed', { name }),
        effects: [{ do: 'rename', personId: person.id, name }],
      };
    }
    case 'language':
      return setLanguage(world, person, language);
    case 'join':
      return saying('account.known', { name: person.name });
  }
}

/** Several people share the phone: which of them is meant? */
function whoseName({ people }: World, name: string): Part {
  const options = people.map(
    (one): Option => ({
      what: { key: 'account.whose-is', values: { name: one.name } },
      leads: { do: 'rename', personId: one.id, name },
    }),
  );
  return numbered([{ key: 'account.whose', values: { name } }], [...options, leave('choice.nothing')]);
}

/** Opt-out is confirmed once; a second STOP gets no answer. An order that waits for its code is dropped by either. */
export function stopTexts(world: World): Part {
  const dropped = { agent: { pending: null, rest: [] } };
  return world.stopped
    ? { say: [], ...dropped }
    : { ...saying('account.stopped'), effects: [{ do: 'stop' }], ...dropped };
}

/** Opt-in; with what was told meanwhile. */
export function startTexts(world: World): Part {
  return {
    say: [{ key: 'account.started' }, ...ownTurns(world).map((one) => ({ ...one, spare: true }))],
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
