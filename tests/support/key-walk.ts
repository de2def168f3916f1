/** Random ways through numbered screens: what a person keys, dials and loses, and what a carrier delivers twice, late or anew. */
import fc from 'fast-check';

/** One thing that happens on a phone or on its way to the line. */
export type Act =
  /** A key, delivered once, a second time later on, or twice at the same instant. */
  | { readonly act: 'key'; readonly key: string; readonly twice: 'no' | 'later' | 'together' }
  /** Another phone, or the same, opens a session; its id may have been there before. */
  | { readonly act: 'dial'; readonly phone: number; readonly session: string; readonly behind: string }
  /** An earlier hit of the same dial comes once more. */
  | { readonly act: 'late'; readonly ago: number }
  /** The carrier sends nothing keyed, and goes on counting or begins anew. */
  | { readonly act: 'empty'; readonly anew: boolean }
  | { readonly act: 'wait'; readonly ms: number }
  /** The line is stopped and started again. */
  | { readonly act: 'restart' };

/** Keys that screens offer, mostly those that lead on. */
const offered = fc.constantFrom('1', '1', '1', '1', '2', '2', '3', '4', '5', '6', '7', '8', '9', '0');
const numbers = fc.constantFrom('0', '12', '99', '100', '999', '1000', '007');
const slips = fc.constantFrom(
  '',
  '#',
  '*',
  '**',
  '1#',
  '*1',
  '1*1',
  '2*0*',
  ' 1 ',
  '১',
  '٢',
  '1e3',
  '-1',
  '1.5',
  'yes',
  'NaN',
);
const words = fc.oneof(
  fc.string({ maxLength: 8 }),
  fc.string({ unit: 'binary', maxLength: 8 }),
  fc.constantFrom('a', '1', '1*', 'ঘ', '😀').chain((one) => fc.nat(182).map((times) => one.repeat(times))),
);
const key = fc.oneof(
  { weight: 20, arbitrary: offered },
  { weight: 3, arbitrary: numbers },
  { weight: 2, arbitrary: slips },
  { weight: 1, arbitrary: words },
);
const twice = fc.constantFrom('no', 'no', 'no', 'later', 'together');
/** What is dialled behind the code. */
const behind = fc.oneof(
  { weight: 3, arbitrary: fc.constant('') },
  { weight: 2, arbitrary: fc.array(offered, { minLength: 1, maxLength: 5 }).map((keys) => keys.join('*')) },
  { weight: 1, arbitrary: slips },
);

/** Keys of somebody who knows what to do, on a phone with one plot or several: reports, surveys, troubles, dates, a language. */
const ways = fc.constantFrom(
  ...[
    '1 1 1 1',
    '1 1 2 1',
    '1 1 3 12 1',
    '1 1 1 1 1',
    '1 2 1 2 1',
    '1 1 9 1 1 1',
    '2 0',
    '2 9',
    '3 1',
    '6 1',
  ],
  ...['4 0 5 5 4 12 5 1', '4 1 5 5 4 12 5 6 7 8 0 1', '4 1 5 999 999', '5 1 1', '5 1 4 1', '5 2 3 1', '0'],
);

const MINUTE_MS = 60_000;

/** By then a session that was lost is forgotten. */
const LATER = { act: 'wait', ms: 20 * MINUTE_MS } as const;

/** Acts on some of `phones` phones, with the line started again about half-way. */
export function acts(phones: number): fc.Arbitrary<readonly Act[]> {
  const dial = fc.record({
    ...{ act: fc.constant('dial' as const), phone: fc.nat(phones - 1), behind },
    session: fc.constantFrom('S1', 'S2', 'S3'),
  });
  const pressed = fc.record({ act: fc.constant('key' as const), key, twice });
  const waits = fc.constantFrom(10_000, 100_000, 4 * MINUTE_MS, 20 * MINUTE_MS, 24 * 60 * MINUTE_MS);
  const act = fc.oneof(
    { weight: 12, arbitrary: pressed },
    { weight: 3, arbitrary: dial },
    { weight: 1, arbitrary: fc.record({ act: fc.constant('late' as const), ago: fc.nat(5) }) },
    { weight: 1, arbitrary: fc.record({ act: fc.constant('empty' as const), anew: fc.boolean() }) },
    { weight: 1, arbitrary: fc.record({ act: fc.constant('wait' as const), ms: waits }) },
  );
  const whole = fc.tuple(dial, ways, twice).map(([first, way, last]): readonly Act[] => {
    const keys = way.split(' ');
    const presses = keys.map((one, i) => {
      return { act: 'key', key: one, twice: i === keys.length - 1 ? last : 'no' } as const;
    });
    return [LATER, { ...first, behind: '' }, ...presses];
  });
  const some = fc.array(
    fc.oneof({ weight: 6, arbitrary: act.map((one) => [one]) }, { weight: 2, arbitrary: whole }),
    {
      ...{ minLength: 10, maxLength: 30, size: 'max' as const },
    },
  );
  return fc
    .tuple(dial, some, some)
    .map(([first, before, after]) => [first, ...before.flat(), { act: 'restart' as const }, ...after.flat()]);
}
