/** Changes of who grows what where, as an agent makes them by text or by a file. */
import type { Way } from '../agronomy/season.ts';

/** A plot that is added. Its number is unique on its grower's phones, its label in the scheme. */
export interface NewPlot {
  readonly number: string;
  readonly label: string;
  readonly blockId: string;
  readonly areaHa: number;
  readonly way: Way;
  readonly varietyDays: number;
  /** Its place along the block's canal, from 1; null puts it at the end. */
  readonly place: number | null;
}

export type PeopleChange =
  | {
      readonly kind: 'add-grower';
      readonly name: string;
      readonly lang: string;
      /** In E.164 form; someone else may use it already. */
      readonly phone: string;
      readonly plots: readonly NewPlot[];
    }
  | { readonly kind: 'add-plot'; readonly growerId: string; readonly plot: NewPlot }
  /** To another block; its place is at the end of that block's canal. */
  | { readonly kind: 'move-plot'; readonly plotId: string; readonly blockId: string }
  /** To another grower, under a number that is free on that grower's phones. */
  | {
      readonly kind: 'give-plot';
      readonly plotId: string;
      readonly growerId: string;
      readonly number: string;
    }
  /** Its season is closed and its reminders end; what was reported stays. */
  | { readonly kind: 'remove-plot'; readonly plotId: string }
  /** All plots of the grower are removed, and nobody is texted any more; what was reported stays. */
  | { readonly kind: 'remove-grower'; readonly growerId: string };
