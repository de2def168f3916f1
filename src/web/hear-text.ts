/**
 * Reads a text in the language of those who use the phone, and in the scheme's others when that says nothing. A stranger's
 * language is told by the words.
 */
import type { Details } from '../hear/details.ts';
import type { Heard } from '../hear/reading.ts';
import type { Day } from '../plan/day.ts';
import type { PhoneFacts } from '../store/load-phone.ts';
import type { SchemeEntry } from '../store/load-schemes.ts';
import type { Line, Voice } from '../sweeps/line.ts';
import type { Group } from '../talk/group.ts';

/** A text as understood, and in which language. */
export interface HeardText {
  readonly lang: string;
  readonly heard: Heard;
  readonly details: Details;
  /** A handset or a network sent it by itself. */
  readonly isAutomatic: boolean;
}

/** In another language than one's own these say no more than that nothing was understood. */
const NOTHING_MORE: ReadonlySet<string | undefined> = new Set(['nothing-known', 'which-activity']);

/**
 * The first language in which the text says something; the first of all when it says nothing in any, or when each of its words is
 * of that language.
 */
export function hearText(
  line: Line,
  text: string,
  today: Day,
  facts: PhoneFacts,
  scheme: SchemeEntry,
  group: Group | null = null,
): HeardText {
  const voices = languagesOf(facts, scheme).map((lang) => line.voice(lang));
  const [first, ...others] = facts.people.length > 0 ? voices : knowingMost(voices, text);
  if (first === undefined) throw new Error('the scheme has no language');
  const unit = scheme.world.areaUnit;
  const blocks = group ? scheme.world.blocks.map(({ name }) => name) : undefined;
  const hear = (voice: Voice) => withoutFalseStop(line, voice, text, voice.hear(text, today, unit, blocks));
  let voice = first;
  let heard = hear(first);
  const isOwn = facts.people.length > 0 && first.strangersIn(text).length === 0;
  for (const other of isOwn ? [] : others) {
    if (heard.unclear?.why !== 'nothing-known') break;
    const again = hear(other);
    if (!NOTHING_MORE.has(again.unclear?.why)) [voice, heard] = [other, again];
  }
  const stopping = asksNothingElse(heard) ? others.find((one) => isStop(hear(one))) : null;
  if (stopping) [voice, heard] = [stopping, hear(stopping)];
  // Handsets speak their own language, not their owner's.
  const isAutomatic = line.voices().some((any) => any.isAutomatic(text, today, heard));
  return { lang: voice.lang, heard, details: voice.details(text, unit), isAutomatic };
}

/** "STOP, Mvua" on an English phone: what one language takes for a name may be about the work in another; then nothing ends. */
function withoutFalseStop({ voices }: Line, voice: Voice, text: string, heard: Heard): Heard {
  if (!isStop(heard)) return heard;
  const names = voice.strangersIn(text).join(' ');
  const isWork = voices().some((other) => other.workWordsIn(names).length > 0);
  return isWork ? { readings: [], unclear: { why: 'nothing-known', choices: [] } } : heard;
}

/** No reading that would be lost: an opt-out in another language then wins. */
const asksNothingElse = ({ readings }: Heard) =>
  readings.every((one) => one.kind === 'not-done' && one.activity === null && one.plots.length === 0);

const isStop = ({ readings: [only] }: Heard) => only?.kind === 'account' && only.what === 'stop';

/** Those that know most of its words; all when nobody knows any. */
function knowingMost(voices: readonly Voice[], text: string): readonly Voice[] {
  const known = voices.map((voice) => voice.wordsKnown(text));
  const most = Math.max(...known);
  return voices.filter((_, index) => known[index] === most);
}

/** Each once: the people's own, then the one last spoken with this phone, then the scheme's. */
export function languagesOf(facts: PhoneFacts, scheme: SchemeEntry): readonly string[] {
  const own = facts.people.map((person) => person.lang);
  const last = facts.row?.lang ?? null;
  return [...new Set([...own, ...(last === null ? [] : [last]), ...scheme.world.languages])];
}
