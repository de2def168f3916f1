/** Texts for many phones, as data: what an agent sends, and what one person is told of it. */
import type { Activity } from '../agronomy/season.ts';
import type { Appointment, Visit } from '../scheme/group/appointment.ts';

interface Base {
  /** The agent who sends it. */
  readonly agentId: string;
  readonly agentName: string;
  /** Whom it concerns: growers with a plot in one of these. */
  readonly blockIds: readonly string[];
  /** As the agent's summary names them: "Upper". */
  readonly blockNames: readonly string[];
}

export type Broadcast =
  | (Base & { readonly kind: 'words'; readonly words: string })
  /** Only the appointments that are new or changed: nobody else is told. */
  | (Base & { readonly kind: 'water'; readonly appointments: readonly Appointment[] })
  | (Base & {
      readonly kind: 'team';
      /** The team's name in the scheme's file, and its work. */
      readonly teamId: string;
      readonly teamName: string;
      readonly activity: Activity;
      readonly appointments: readonly Appointment[];
    });

/** A broadcast as kept and told: its appointments lie with the plots. */
export type BroadcastHead = Broadcast extends infer One
  ? One extends { readonly kind: string }
    ? Omit<One, 'appointments'>
    : never
  : never;

/** One person's share of it. */
export interface Recipient {
  readonly name: string;
  readonly lang: string;
  /** The person's plots with an appointment that changed, by number; none where words are sent. */
  readonly plots: readonly {
    readonly number: string;
    readonly visit: Visit | null;
    /** What the grower was told before; null when nothing was. */
    readonly before: Visit | null;
  }[];
}

/** How far a broadcast has come, for its agent. */
export interface Delivery {
  readonly broadcast: BroadcastHead;
  readonly phones: number;
  readonly reached: number;
  /** Phones that were out of reach and get a second text, whose end is not known yet. */
  readonly triedAgain: number;
  /** The other phones, by why they were not reached. */
  readonly lost: {
    readonly stopped: number;
    /** Out of service. */
    readonly gone: number;
    readonly other: number;
  };
  /** Labels of the plots of those who were not reached, all of them. */
  readonly failedPlots: readonly string[];
}
