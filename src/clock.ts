/** Where the shell takes the time from: the machine's clock, or one that tests and the simulated season set. */

export interface Clock {
  /** Milliseconds since 1970-01-01 UTC, a whole number. */
  nowMs(): number;
}

/** A clock that stands still until it is told otherwise. */
export interface SettableClock extends Clock {
  /** Puts the clock to this instant, forward or back. */
  set(ms: number): void;
  /** Moves the clock by this many milliseconds; a negative number moves it back. */
  advance(ms: number): void;
}

/** The machine's own clock. */
export const realClock: Clock = { nowMs: () => Date.now() };

/** A clock that stands at `startMs` until it is set or advanced. */
export function simulatedClock(startMs: number): SettableClock {
  let ms = Math.trunc(startMs);
  return {
    nowMs: () => ms,
    set: (next) => {
      ms = Math.trunc(next);
    },
    advance: (byMs) => {
      ms += Math.trunc(byMs);
    },
  };
}

/** A clock that reads `startMs` now and runs on at the machine's pace. */
export function clockFrom(startMs: number, machine: Clock = realClock): Clock {
  const offsetMs = Math.trunc(startMs) - machine.nowMs();
  return { nowMs: () => machine.nowMs() + offsetMs };
}
