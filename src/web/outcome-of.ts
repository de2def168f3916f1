/** What one text comes to: heard, put to the conversation, or followed where the carrier has acted; before anything is written. */
import type { Trx } from '../store/commit-together.ts';
import { type PhoneFacts, worldOf } from '../store/load-phone.ts';
import { ownTexts } from '../store/own-texts.ts';
import { type StoredState, talkState } from '../store/talks.ts';
import { textedSince } from '../store/texts-in.ts';
import { groupOf } from '../sweeps/agent-group.ts';
import type { Line } from '../sweeps/line.ts';
import { schemeOf, settingOf } from '../sweeps/phone-setting.ts';
import type { Group } from '../talk/group.ts';
import { mayBeOwn } from '../talk/own-text.ts';
import { hearText } from './hear-text.ts';
import { latelyTold } from './late-text.ts';
import { linkingOf } from './linking.ts';
import type { Outcome } from './outcome.ts';
import type { TextIn } from './text-in.ts';

/** A text on its walk: what it is named, what it says, when it is walked and when it was sent. */
export interface Walked {
  readonly batch: string;
  readonly words: string;
  readonly nowMs: number;
  readonly atMs: number;
}

/** Hears the text and lets the conversation decide; nothing is written yet. */
export async function outcomeOf(
  trx: Trx,
  line: Line,
  { from, optOut, sentMs, hasMedia }: TextIn,
  facts: PhoneFacts,
  { batch, words, nowMs, atMs }: Walked,
): Promise<Outcome> {
  const scheme = schemeOf(line, facts);
  const hasTextedSince = sentMs !== undefined && (await textedSince(trx, from, atMs));
  const stateAt = (ms: number) => talkState<StoredState>(facts.row, line.talk.version, ms);
  // It asks and answers nothing: there is no older question that it could be meant for.
  if (hasMedia === true && optOut === undefined && words.trim() === '')
    return stepOf(trx, line, facts, stateAt(nowMs), { batch, words, nowMs, group: null, isPicture: true });
  // What has been asked since was not asked when this was sent.
  const before = hasTextedSince ? null : stateAt(atMs);
  const group = await groupOf(trx, line, facts, settingOf(line, scheme, atMs));
  const outcome =
    optOut === undefined
      ? await stepOf(trx, line, facts, before, { batch, words, nowMs: atMs, group })
      : optOutOf(optOut, before, facts.row?.stopped === 1);
  if (outcome.silent && hasTextedSince) return { ...outcome, state: stateAt(nowMs) };
  if (sentMs === undefined) return outcome;
  const isAgent = group !== null;
  return latelyTold(outcome, { scheme, atMs, nowMs, isAgent, hasTextedSince, standing: stateAt(nowMs) });
}

interface Stepped extends Pick<Walked, 'batch' | 'words' | 'nowMs'> {
  readonly group: Group | null;
  readonly isPicture?: boolean;
}

async function stepOf(
  trx: Trx,
  line: Line,
  facts: PhoneFacts,
  before: StoredState | null,
  { batch, words, nowMs, group, isPicture = false }: Stepped,
): Promise<Outcome> {
  const scheme = schemeOf(line, facts);
  const setting = settingOf(line, scheme, nowMs);
  const { lang, heard, details, isAutomatic } = hearText(line, words, setting.today, facts, scheme, group);
  const own = mayBeOwn(words) ? await ownTexts(trx, facts.number) : [];
  const source = { isAutomatic, ownTexts: own, isPicture };
  const event = { kind: 'text', batch, text: words, lang, heard, details, source } as const;
  const linking = await linkingOf(trx, line, facts, event, nowMs);
  const world = { ...worldOf(facts, setting), ...(group && { group }), ...(linking && { linking }) };
  return { ...line.talk.step(before, event, world), lang };
}

/** The carrier has done it and has answered: we follow, and say nothing. */
function optOutOf(
  optOut: NonNullable<TextIn['optOut']>,
  before: StoredState | null,
  isStopped: boolean,
): Outcome {
  if (optOut === 'help') return { state: before, effects: [], lang: null };
  if (optOut === 'stop' && isStopped) return { state: null, effects: [], lang: null };
  return { state: null, effects: [{ do: optOut }], lang: null };
}
