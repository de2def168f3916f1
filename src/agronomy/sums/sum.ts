/** What all field sums share: figures that were assumed, and input that is refused. The sums themselves are beside it. */
import { figure, type Rulebook, type Source } from '../rulebook.ts';
import { sourcesText } from '../source-text.ts';

/** A figure that was not given and was taken from the rulebook, with its unit and source. */
export interface Assumption {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly source: string;
}

/** Input that no sum can be made of. `refused` is a short name such as "area-zero", `what` the offending value as text. */
export type Refusal = { readonly refused: string; readonly what: string };

/** What every sum gives beside its results: the figures it took from the rulebook, and where all of it comes from. */
export interface Founded {
  readonly assumptions: readonly Assumption[];
  readonly sources: readonly string[];
}

/** A figure of the rulebook as an assumption; throws a RangeError that names the key when the rulebook has none. */
export function assumed(book: Rulebook, figureName: string): Assumption {
  const value = figure(book, figureName);
  const { unit = '', sources = [] } = book.figures[figureName] ?? {};
  return { name: figureName, value, unit, source: sourcesText(sources) };
}

/** Figures by their names as assumptions, and all their sources, each once; `more` are those of the way of reckoning. */
export function founded(book: Rulebook, figureNames: readonly string[], ...more: readonly Source[]): Founded {
  const assumptions = figureNames.map((name) => assumed(book, name));
  const all = [...figureNames.flatMap((name) => book.figures[name]?.sources ?? []), ...more];
  return { assumptions, sources: [...new Set(all.map((source) => sourcesText([source])))] };
}

export function refusal(refused: string, what: number | string): Refusal {
  return { refused, what: String(what) };
}

export function isRefusal<T extends object>(result: T | Refusal): result is Refusal {
  return 'refused' in result;
}
