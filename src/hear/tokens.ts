/** Cuts a text into words, numbers, dates in figures, labels and marks. Knows only which words exist. */
import { foldWord } from './fold.ts';

/** What the tokeniser asks of a language. */
export interface Spelling {
  readonly isWord: (word: string) => boolean;
  /** True for letters that stand before a plot's number ("p3"), so that "p3" is no label. */
  readonly opensNumber: (letters: string) => boolean;
  /** True for letters that are a unit and no word for plot: "m3" is 3 metres where units come first, "M-3" is a label. */
  readonly isUnit?: (letters: string) => boolean;
  /** True for letters that lose their vowel before an apostrophe ("l" in "l'eau"). */
  readonly isElision: (letters: string) => boolean;
  /** True for what follows a number that counts in order ("3rd"). */
  readonly isEnding: (letters: string) => boolean;
}

export type TokenKind = 'word' | 'number' | 'ordinal' | 'date' | 'label' | 'mark';

export interface Token {
  readonly kind: TokenKind;
  /** Folded; for a mark one of `, . ; : ! ? / + - ( )` or a newline. */
  readonly text: string;
  readonly raw: string;
  readonly from: number;
  readonly to: number;
  /** True when nothing stands between it and the token before. */
  readonly glued: boolean;
  /** Of a number. */
  readonly value?: number;
  /** Of a date in figures ("3/5", "3.5.27"): its parts as written. */
  readonly parts?: readonly number[];
}

const PIECE =
  /(?<date>(?<!\d)(?:\d{4}([-/.])\d{1,2}\2\d{1,2}|\d{1,2}([-/.])\d{1,2}\3(?:\d{4}|\d{2})|\d{1,3}\/\d{1,3})(?![\d/]))|(?<number>-?\d+[.]\d+|-?\d+(?![\p{L}\d]))|(?<chunk>[\p{L}\p{M}\d]+(?:'[\p{L}\p{M}]+)*)|(?<mark>[^\s]|\n)/gu;
const RUN = /\d+|[^\d]+/g;
const MARKS = new Set(',.;:!?/+-()\n&#'.split(''));

function numberToken(raw: string, from: number, glued: boolean): Token {
  return { kind: 'number', text: raw, raw, from, to: from + raw.length, glued, value: Number(raw) };
}

function dateToken(raw: string, from: number, glued: boolean): Token {
  const parts = raw.split(/[-/.]/).map(Number);
  return { kind: 'date', text: raw, raw, from, to: from + raw.length, glued, parts };
}

/** "l'eau" is "l" and "eau"; a word of its own ("aujourd'hui") stays whole. */
function elided(raw: string, from: number, glued: boolean, spelling: Spelling): Token[] {
  const cut = raw.indexOf("'");
  const [head, tail] = [raw.slice(0, cut), raw.slice(cut + 1)];
  const splits = cut > 0 && spelling.isElision(foldWord(head)) && !spelling.isWord(foldWord(raw));
  if (!splits) return chunkTokens(raw, from, glued, spelling);
  const short: Token = { kind: 'word', text: foldWord(head), raw: head, from, to: from + cut, glued };
  return [short, ...elided(tail, from + cut + 1, true, spelling)];
}

/** "ploughed3", "12cm", "2day", "A17": whole when known, a label when it looks like one, else letters and figures apart. */
function chunkTokens(raw: string, from: number, glued: boolean, spelling: Spelling): Token[] {
  const text = foldWord(raw);
  const whole = { text, raw, from, to: from + raw.length, glued };
  const ordinal = /^(\d+)(\D+)$/.exec(text);
  if (ordinal && spelling.isEnding(ordinal[2]!))
    return [{ kind: 'ordinal', ...whole, value: Number(ordinal[1]) }];
  if (!/\d/.test(text) || spelling.isWord(text)) return [{ kind: 'word', ...whole }];
  const label = /^(\p{L}{1,2})\d{1,4}$/u.exec(text);
  if (label && !spelling.opensNumber(label[1]!))
    return [{ kind: 'label', ...whole, text: raw.toUpperCase() }];
  const tokens: Token[] = [];
  for (const run of raw.matchAll(RUN)) {
    const at = from + run.index;
    const join = glued || run.index > 0;
    if (/^\d/.test(run[0])) tokens.push(numberToken(run[0], at, join));
    else
      tokens.push({
        kind: 'word',
        text: foldWord(run[0]),
        raw: run[0],
        from: at,
        to: at + run[0].length,
        glued: join,
      });
  }
  return tokens;
}

/** "A-17": a letter or two, a dash and figures, all touching. */
function joinLabels(tokens: readonly Token[], spelling: Spelling): Token[] {
  const out: Token[] = [];
  for (const token of tokens) {
    const before = out.at(-1);
    const figures = token.kind === 'number' && token.glued && /^-\d+$/.test(token.raw);
    if (
      figures &&
      before?.kind === 'word' &&
      /^\p{L}{1,2}$/u.test(before.text) &&
      (!spelling.opensNumber(before.text) || spelling.isUnit?.(before.text) === true)
    ) {
      const raw = before.raw + token.raw;
      out[out.length - 1] = { ...before, kind: 'label', text: raw.toUpperCase(), raw, to: token.to };
    } else out.push(token);
  }
  return out;
}

/** A dash touching the number before it is no minus: "1-3" is 1, dash, 3. */
function splitMinus(token: Token): Token[] {
  if (token.kind !== 'number' || !token.glued || !token.raw.startsWith('-')) return [token];
  const rest = token.raw.slice(1);
  const dash: Token = {
    kind: 'mark',
    text: '-',
    raw: '-',
    from: token.from,
    to: token.from + 1,
    glued: true,
  };
  return [dash, numberToken(rest, token.from + 1, true)];
}

/** Tokens of a cleaned text, in order. `tokenise('plot3, 12cm', …)` is plot, 3, comma, 12, cm. */
export function tokenise(text: string, spelling: Spelling): Token[] {
  const tokens: Token[] = [];
  let end = -1;
  for (const found of text.matchAll(PIECE)) {
    const { date, number, chunk, mark } = found.groups as Record<string, string | undefined>;
    const from = found.index;
    const glued = from === end;
    if (date) tokens.push(dateToken(date, from, glued));
    else if (number) tokens.push(numberToken(number, from, glued));
    else if (chunk) tokens.push(...elided(chunk, from, glued, spelling));
    else if (mark && spelling.isWord(mark) && !MARKS.has(mark))
      tokens.push({ kind: 'word', text: mark, raw: mark, from, to: from + 1, glued });
    else if (mark && MARKS.has(mark))
      tokens.push({ kind: 'mark', text: mark, raw: mark, from, to: from + 1, glued });
    end = from + found[0].length;
  }
  return joinLabels(tokens, spelling).flatMap(splitMinus);
}
