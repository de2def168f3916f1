/**
 * The step of a text, or silence: to what no person sent, to the line's own words come back, and to a row of texts that cannot be
 * read. What can be read is always answered. Events without a source, such as picks on screens, are never silenced.
 */
import { plainText } from '../hear/automatic.ts';
import type { Effect } from './effect.ts';
import type { TextEvent } from './event.ts';
import { isOwnText } from './own-text.ts';
import { officer } from './phrases.ts';
import { plotsIn } from './plots-in.ts';
import { liveState, NO_MEMORY, type Standing, stateAt, type TalkState } from './state.ts';
import { step } from './step.ts';
import type { Turn } from './turn.ts';
import { type UnreadRow, withUnread } from './unread-row.ts';
import { namedSelf } from './who.ts';
import type { World } from './world.ts';

/** A turn; `silent` when the text is kept and nothing else comes of it. */
export interface QuietTurn extends Turn {
  readonly silent?: true;
}

/** Pure, like `step`. */
export function stepOrSilence(state: TalkState | null, event: TextEvent, world: World): QuietTurn {
  if (!event.source) return step(state, event, world);
  if (isOfNobody(event)) return { state, effects: [], silent: true };
  const live = liveState(state, world.nowMs);
  if (event.source.isPicture)
    return world.stopped ? { state: live, effects: [] } : ofPicture(live, event, world);
  const turn = step(state, event, world);
  if (!isUnread(live?.standing ?? { at: 'idle' }, event, world, turn)) return turn;
  return inRow(live, event, world, turn);
}

/** Said shortly; what was asked stays asked. */
function ofPicture(live: TalkState | null, event: TextEvent, world: World): QuietTurn {
  const saying = { sentences: [{ key: 'picture.no-words' }] };
  return inRow(live, event, world, { state: live, effects: [{ do: 'say', lang: event.lang, saying }] });
}

/** The usual turn of a text that could not be read, the last answer, or silence, by what came before it. */
function inRow(live: TalkState | null, event: TextEvent, world: World, turn: Turn): QuietTurn {
  const { row, answer } = withUnread(live?.row, comparedAs(event), world.nowMs);
  if (answer === 'none') return { state: withRow(live, row, world), effects: [], silent: true };
  if (answer === 'usual') return { ...turn, state: withRow(turn.state, row, world) };
  return { state: withRow(live, row, world), effects: lastAnswer(event, world, turn) };
}

/** By its words; without any, pictures are alike, and so are signs. */
function comparedAs({ text, source, heard }: TextEvent): string {
  const kind = source?.isPicture ? 'picture' : (heard.unclear?.why ?? '');
  return plainText(text) || `(${kind})`;
}

/** An opt-out holds, whatever it looks like. */
function isOfNobody({ source, heard, text }: TextEvent): boolean {
  const stops = heard.readings.some((reading) => reading.kind === 'account' && reading.what === 'stop');
  if (!source || stops) return false;
  return source.isAutomatic || isOwnText(text, source.ownTexts);
}

function withRow(state: TalkState | null, row: UnreadRow, { nowMs }: World): TalkState {
  return { ...(state ?? stateAt(nowMs, { at: 'idle' }, NO_MEMORY)), row };
}

/** Answered, with nothing done and no question of ours any further: it was not read, or was a number without a question. */
function isUnread(before: Standing, event: TextEvent, world: World, turn: Turn): boolean {
  const { readings, unclear } = event.heard;
  const isBare =
    world.people.length === 0
      ? readings.every(({ kind }) => kind !== 'account')
      : unclear !== null || readings.every(({ kind }) => kind === 'answer');
  const saysSo = turn.effects.some((effect) => effect.do === 'say') && turn.effects.every(isIdle);
  const isName = namesPlot(event, world, turn) || namedSelf(world, event) !== null;
  return isBare && saysSo && !hasAnswered(before, event, turn) && !isName;
}

const isIdle = (effect: Effect) =>
  effect.do === 'say' || (effect.do === 'note-trouble' && effect.what === 'not-understood');

/** A question was open and the text took it further. */
function hasAnswered(before: Standing, event: TextEvent, { state }: Turn): boolean {
  if (JSON.stringify(before) === JSON.stringify(state?.standing)) return false;
  const isAnswer = event.heard.unclear === null && event.heard.readings.length > 0;
  switch (before.at) {
    case 'idle':
      // A stranger begins to join.
      return state?.standing.at === 'join';
    case 'choose':
      return isAnswer;
    case 'which-plot':
      return plotsIn(event) !== null;
    case 'survey':
      return state?.standing.at === 'survey';
    case 'join':
      return true;
    case 'agent-name':
      return false;
  }
}

/** What is said to a number where no plot is meant and no question is open. */
const NO_ANSWERS = ['choice.no-question'];

/** An agent asks about a plot by its name alone, and is told of it. */
function namesPlot({ details }: TextEvent, { group, doubted }: World, { effects }: Turn): boolean {
  const keys = effects.flatMap((one) => (one.do === 'say' ? one.saying.sentences.map(({ key }) => key) : []));
  const isTold = !doubted && !keys.some((key) => NO_ANSWERS.includes(key));
  return group !== undefined && details.plots.length > 0 && isTold;
}

/** Instead of the usual answer: who has been told, or can be rung, and that the line says no more to such texts. */
function lastAnswer(event: TextEvent, world: World, { effects }: Turn): readonly Effect[] {
  const said = effects.find((effect) => effect.do === 'say');
  const [plot] = world.plots;
  const noted: readonly Effect[] = plot
    ? [
        {
          do: 'note-trouble',
          seasonId: plot.seasonId,
          what: 'not-understood',
          until: null,
          words: event.text,
        },
      ]
    : [];
  const { phone } = officer(world);
  const last = plot
    ? { key: 'unclear.last', values: officer(world) }
    : { key: 'unclear.last-ring', values: { phone } };
  return [...noted, { do: 'say', lang: said?.lang ?? event.lang, saying: { sentences: [last] } }];
}
