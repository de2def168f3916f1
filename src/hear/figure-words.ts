/** Figures that stand for words ("wat 2 do 4 plot 1"), where a number makes no sense. */
import type { Lexicon } from './lexicon.ts';
import type { Sense } from './sense.ts';
import type { Token } from './tokens.ts';

/** A token on its way to a node: the word of ours behind it, or the senses that its slips leave. */
export interface Piece {
  readonly token: Token;
  readonly word: string | null;
  readonly senses: readonly Sense[] | null;
}

const sensesOf = (piece: Piece | undefined, lexicon: Lexicon): readonly Sense[] =>
  piece?.word == null ? [] : (lexicon.phrases.next.get(piece.word)?.senses ?? []);

const isPlotWord = (piece: Piece | undefined, lexicon: Lexicon) =>
  sensesOf(piece, lexicon).some((s) => s.role === 'plot' && (s.value === 'one' || s.value === 'many'));

const has = (piece: Piece, lexicon: Lexicon, fits: (sense: Sense) => boolean) =>
  (piece.senses ?? sensesOf(piece, lexicon)).some(fits);

/** What a plot's number may follow or lead: work, or the opening of a sum. */
const COUNTING = new Set(['act', 'verb', 'stage', 'sumAsk']);

const hasNumber = (piece: Piece | undefined) =>
  piece?.token.kind === 'number' || piece?.token.kind === 'label';

/** Whether a phrase of ours runs through the word ("what to do"), or leads with it to a plain verb ("want to plough"). */
function inPhrase(
  before: Piece | undefined,
  word: string,
  after: Piece | undefined,
  lexicon: Lexicon,
): boolean {
  const begun = before?.word == null ? undefined : lexicon.phrases.next.get(before.word)?.next.get(word);
  if (begun === undefined || after?.word == null) return false;
  const isPlain = sensesOf(after, lexicon).some((s) => s.form === 'plain');
  return begun.next.has(after.word) || (begun.senses.length > 0 && isPlain);
}

/** "4 plot 1" after nothing that could be done to plot 4. */
function beforePlot(all: readonly Piece[], at: number, lexicon: Lexicon): boolean {
  const before = all[at - 1];
  if (!isPlotWord(all[at + 1], lexicon) || !hasNumber(all[at + 2])) return false;
  if (before && (before.token.kind !== 'word' || isPlotWord(before, lexicon))) return false;
  const joins = sensesOf(before, lexicon).some((s) => s.role === 'join');
  const opensSum = has(all[0]!, lexicon, (s) => s.role === 'sum');
  const asks = all
    .slice(0, at)
    .some((one) => has(one, lexicon, (s) => s.role === 'mark' && s.value === 'question'));
  return (
    !joins && (asks || (!opensSum && !all.some((one) => has(one, lexicon, (s) => COUNTING.has(s.role)))))
  );
}

/** The pieces with such figures as words. */
export function asWords(all: readonly Piece[], lexicon: Lexicon): readonly Piece[] {
  return all.map((piece, at) => {
    const word = piece.token.kind === 'number' ? lexicon.figureWords.get(piece.token.raw) : undefined;
    if (word === undefined || piece.token.glued) return piece;
    const leads = lexicon.figuresBeforePlots.has(piece.token.raw);
    const fits = inPhrase(all[at - 1], word, all[at + 1], lexicon) || (leads && beforePlot(all, at, lexicon));
    return fits ? { ...piece, word } : piece;
  });
}
