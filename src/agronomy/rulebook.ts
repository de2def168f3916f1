/** The shape of the rulebook: rules between activities and single figures, each with the source beside it. */
import type { Activity, Way } from './season.ts';

/** How well a figure is founded. `judgement` is Bundline's own choice and says so. */
export type Mark = 'published' | 'second-hand' | 'common-practice' | 'from-memory' | 'judgement' | 'scheme';

export interface Source {
  readonly text: string;
  readonly mark: Mark;
}

/** One end of an activity: the day on which it starts or ends; `round` for work that comes more than once. */
export interface PointName {
  readonly activity: Activity;
  readonly at: 'start' | 'end';
  readonly round?: number;
}

/** `must` is physical; `should` may give way at its cost; `aim` only prefers. */
export type RuleStrength = 'must' | 'should' | 'aim';

/** Ways of growing for which a rule or step holds; a missing field means any. */
export type When = { readonly [K in keyof Way]?: readonly Way[K][] };

/**
 * Days that hang on the crop: best age of a seedling, the age at which it is lost, and the age at which it stands clear
 * of the water on an uneven plot; sowing to harvest and to panicle initiation of a transplanted crop, and of one that is
 * sown in the field (`variety`, `panicle-direct`), which loses no days to transplanting; panicle initiation to harvest.
 */
export type Quantity =
  | 'seedling-age'
  | 'seedling-limit'
  | 'standing-clear'
  | 'maturity'
  | 'panicle-initiation'
  | 'variety'
  | 'panicle-direct'
  | 'panicle-to-harvest';

/** A bound in whole days: a number, or one that follows the variety (`of` + `plus`, never under `atLeast`). */
export type Bound =
  | number
  | { readonly of: Quantity; readonly plus: number; readonly atLeast?: number }
  | null;

/** What giving way costs: `rank` orders the choices (low gives way first), `name` is the message `cost.<name>`. */
export interface Cost {
  readonly rank: number;
  readonly name: string;
  readonly text: string;
}

/** A gap in whole days: `lo <= to - from <= hi`, best at `aim`; null means no bound. */
export interface Rule {
  readonly name: string;
  readonly from: PointName;
  readonly to: PointName;
  readonly lo: Bound;
  readonly aim: Bound;
  readonly hi: Bound;
  readonly strength: RuleStrength;
  readonly costLo?: Cost;
  readonly costHi?: Cost;
  /** For a `must` with a known way out: rules that cost more than this rank are kept, and the way out is taken. */
  readonly yieldsAt?: number;
  /** Guides work that is still to come: once either end is past, the rule says nothing. */
  readonly whileOpen?: boolean;
  readonly when?: When;
  readonly sources: readonly Source[];
}

/** One step of the work: what doing it tells about earlier steps, and whether the crop can do without it. */
export interface Step {
  readonly activity: Activity;
  readonly round?: number;
  /** An optional step rides along with another one: it is never the next step and never implied by a later one. */
  readonly optional?: boolean;
  /** Steps that must have been done when this one has. */
  readonly implies: readonly Activity[];
  /** Only where soil or recommendation asks for fertiliser at the last puddling. */
  readonly onlyIfBasalAdvised?: boolean;
  /** Days past its last day after which the step is no longer worth doing; missing means never. */
  readonly graceDays?: number;
  readonly when?: When;
}

/** A single number with its unit and source: depths, work rates, seedling ages. */
export interface Figure {
  readonly value: number;
  readonly unit: string;
  readonly sources: readonly Source[];
}

/** In which order due dates are chosen: each entry fixes one end of a rule at its aim from the other end. */
export interface Choice {
  readonly rule: string;
  readonly fix: 'from' | 'to';
  /** Only where the other end is already past: work that follows at once. */
  readonly oncePast?: boolean;
}

/** A step that waits until so much rain has fallen, in mm. */
export interface RainGate {
  readonly rule: string;
  readonly activity: Activity;
  /** Key of the figure that says how much. */
  readonly figure: string;
  /** The figure that counts instead where the usual rain of the place is known, so that the day can be expected. */
  readonly figureIfExpected?: string;
  readonly when: When;
}

export interface Rulebook {
  /** In the order of the field. */
  readonly steps: readonly Step[];
  readonly rules: readonly Rule[];
  readonly choices: readonly Choice[];
  readonly rainGates: readonly RainGate[];
  readonly figures: Readonly<Record<string, Figure>>;
}

/** The value of a figure; throws a RangeError that names the key when the rulebook has none. */
export function figure(book: Rulebook, key: string): number {
  const found = book.figures[key];
  if (!found) throw new RangeError(`The rulebook has no figure "${key}".`);
  return found.value;
}
