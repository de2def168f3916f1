/**
 * A second phone of one grower: PHONE on the known one gives a code, the code texted from the other one ties it. Whoever forges a
 * known number never sees the code.
 */
import { clean } from '../hear/fold.ts';
import type { TextEvent } from './event.ts';
import { leave, numbered, type Option } from './numbered.ts';
import { officer } from './phrases.ts';
import type { Memory } from './state.ts';
import { type Part, saying } from './turn.ts';
import type { Linking, World } from './world.ts';
import { hasTriedTooOften, oneMoreWrong } from './wrong-tries.ts';

/** A code holds for a day, as the text says: the other phone may be at home. */
const OFFER_MS = 86_400_000;
/** Last digits that tell phones of one person apart, and tell a stranger nothing. */
export const TAIL_DIGITS = 3;
/** Phones that can be taken away by one question. */
const MOST_TAKEN = 4;

/** PHONE alone, or PHONE and a code; from a known phone or another. */
export function answerPhone(world: World, code: string | null, memory: Memory): Part {
  const { linking, speaker } = world;
  if (!linking) return saying('phone.again');
  if (world.group) return saying('phone.agents');
  if (code !== null) return tie(world, linking, memory);
  return speaker ? offer(world, linking, speaker.id) : saying('phone.stranger', officer(world));
}

/**
 * The code in a text that is about a second phone: behind PHONE, or from a stranger's phone all of the text. A number of another
 * length is a phone's own: with it nothing can be tied. Null where there is none.
 */
export function codeIn({ heard, text }: Pick<TextEvent, 'heard' | 'text'>): string | null {
  const asked = heard.readings.find((one) => one.kind === 'account' && one.what === 'phone');
  return codeOf(asked?.kind === 'account' ? asked.text : text);
}

/** Five digits of any script, as codes are made; null for anything else. */
export function codeOf(said: string | undefined): string | null {
  const code = clean(said ?? '').replace(/[\s.!]+/g, '');
  return /^\d{5}$/.test(code) ? code : null;
}

function offer({ nowMs }: World, { freshCode, others }: Linking, personId: string): Part {
  const untilMs = nowMs + OFFER_MS;
  const how = { key: 'phone.offer', values: { code: freshCode } };
  const effects: Part['effects'] = [{ do: 'offer-phone', personId, code: freshCode, untilMs }];
  const taken = (others[personId] ?? []).slice(0, MOST_TAKEN).map(
    (phone): Option => ({
      what: { key: 'phone.take-away', values: { tail: phone.slice(-TAIL_DIGITS) } },
      leads: { do: 'unlink', personId, phone },
    }),
  );
  if (taken.length === 0) return { say: [how], effects };
  return { ...numbered([how], [...taken, leave('choice.nothing')]), effects };
}

/** What a code ties, where it is an open one's, this phone is not an agent's, and no plot number is there twice. */
function tie(world: World, { offer: found, tail }: Linking, memory: Memory): Part {
  if (hasTriedTooOften(world, memory)) return saying('phone.locked');
  if (!found) return { ...saying('phone.code-wrong'), wrongCodes: oneMoreWrong(world, memory) };
  if (world.people.some(({ id }) => id === found.personId)) return saying('phone.tied-already');
  const clash = world.plots.find(({ number }) => found.numbers.includes(number));
  if (clash) return saying('phone.clash', { plot: clash.number, ...officer(world) });
  return {
    ...saying('phone.tied', { name: found.name }),
    lang: found.lang,
    speaker: found.personId,
    effects: [
      { do: 'link-phone', offerId: found.id, personId: found.personId },
      {
        do: 'text',
        phone: found.phone,
        lang: found.lang,
        saying: { sentences: [{ key: 'phone.tied-news', values: { tail } }] },
      },
    ],
  };
}
