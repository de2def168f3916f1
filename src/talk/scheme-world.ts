/** A scheme as a conversation knows it: its blocks, its officer, and what its file says. */
import type { Climate, JoinWay, Season } from '../agronomy/season.ts';
import type { Canal } from '../agronomy/sums/plot-water.ts';
import type { AreaUnit } from '../scheme/area-unit.ts';
import type { CanalHours, PricePerPart, SharedTeam } from '../scheme/group-section.ts';
import type { SchemeNutrients } from '../scheme/nutrients-section.ts';

export interface SchemeWorld {
  readonly id: string;
  readonly name: string;
  readonly code: string;
  /** Languages of the scheme, the first is the default. */
  readonly languages: readonly string[];
  readonly officer: { readonly name: string; readonly phone: string };
  /** Its own unit of area, where it has one. */
  readonly areaUnit?: AreaUnit;
  /** Usual weather of the place, where it is known. */
  readonly climate?: Climate;
  /** What is recommended and sold there, where the scheme's file says it. */
  readonly nutrients?: SchemeNutrients;
  readonly blocks: readonly {
    readonly id: string;
    readonly name: string;
    readonly water: Season['blockWater'];
    readonly target: Season['target'];
    /** How those who join in the block grow, where it is not the usual way. */
    readonly way?: JoinWay;
    readonly canal?: Canal & CanalHours;
  }[];
  readonly pricePerPart?: PricePerPart;
  /** With the ids of their blocks as kept. */
  readonly sharedTeams?: readonly SharedTeam[];
}
