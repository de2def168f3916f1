/** A mistake in a scheme file, at its place. */
export interface PlacedMistake {
  readonly path: readonly (string | number)[];
  readonly what: string;
}
