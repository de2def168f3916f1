/** What concerns the number and the person rather than a plot: answered before anything else, and before plots are spoken of. */
import type { AccountReading } from '../hear/reading.ts';
import { answerAccount } from './account.ts';
import type { HeldText, Memory } from './state.ts';
import type { Texted } from './texted.ts';
import type { Part } from './turn.ts';
import { asksWho, heldFrom, namedSelf, speakAs } from './who.ts';
import { answerDoubted } from './whose-phone.ts';
import type { World } from './world.ts';

type Read = (world: World, held: HeldText) => readonly Part[];

/** STOP and START are for the number, whoever texts. */
const OF_THE_NUMBER: readonly AccountReading['what'][] = ['stop', 'start'];

/**
 * Opt-out and opt-in; then whose number it is, where that is in doubt; then who texts, where several may; then the account.
 * `read` answers what was texted before a question of these. Null where the text is about something else.
 */
export function answerPeople(texted: Texted, read: Read): readonly Part[] | null {
  const { world, standing, event, memory } = texted;
  const { readings } = event.heard;
  const { language } = event.details;
  const account = readings.find((reading) => reading.kind === 'account');
  const own = account?.kind === 'account' ? account : null;
  if (own && OF_THE_NUMBER.includes(own.what) && !(world.doubted && own.what === 'start'))
    return [answerAccount(world, own, language, memory)];
  if (world.doubted) return answerDoubted(texted, (held) => readHeld(world, held, memory, read));
  const self = speakerNamed(texted);
  if (self !== undefined) {
    const held = heldFrom(standing);
    return speakAs(world, self, held, (as) => readHeld(as, held, memory, read));
  }
  const who = asksWho(world, { words: event.text, readings, language });
  if (who) return [who];
  return own ? [answerAccount(world, own, language, memory)] : null;
}

/** Who says to be texting: by a number of the question, or by name. */
function speakerNamed({ world, standing, event, pick }: Texted): string | undefined {
  const outcome = pick !== null && standing.at === 'choose' ? standing.options[pick - 1] : undefined;
  return outcome?.do === 'speak' ? outcome.personId : namedSelf(world, event)?.id;
}

/** What was texted before the line had to ask whose it is. */
function readHeld(world: World, held: HeldText, memory: Memory, read: Read): readonly Part[] {
  const who = asksWho(world, held);
  if (who) return [who];
  const [first] = held.readings;
  return first?.kind === 'account' ? [answerAccount(world, first, held.language, memory)] : read(world, held);
}
