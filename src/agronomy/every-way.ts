/** Every way of growing that can be written down, whether or not a rulebook knows it. */
import { WAY_VALUES, type Way } from './season.ts';

/** All combinations of values; the last part of a way changes fastest. */
export function everyWay(): readonly Way[] {
  return Object.entries(WAY_VALUES).reduce<readonly object[]>(
    (ways, [part, values]) => ways.flatMap((way) => values.map((value) => ({ ...way, [part]: value }))),
    [{}],
  ) as readonly Way[];
}
