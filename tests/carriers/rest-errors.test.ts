import { expect, test } from 'vitest';
import { type Meaning, meaningOf } from '../../src/carriers/rest-errors.ts';

/** As the public list of error codes describes them. */
const CODES: readonly (readonly [Meaning, readonly number[]])[] = [
  ['opted-out', [21610]],
  ['permanent', [21211, 21612, 21614, 21635, 30004, 30006]],
  ['gone', [30005]],
  ['tomorrow', [30003]],
  ['later', [20429, 21611, 30001, 30008]],
  ['alarm', [20003, 20404, 21606, 30007]],
];

test.each(CODES.flatMap(([meaning, codes]) => codes.map((code) => [code, meaning] as const)))(
  '%d: %s, whatever the HTTP status',
  (code, meaning) => {
    for (const status of [200, 400, 401, 429]) expect(meaningOf(code, status)).toBe(meaning);
  },
);

test.each([
  [401, 'alarm'],
  [403, 'alarm'],
  [404, 'alarm'],
  [429, 'later'],
  [400, 'permanent'],
  [413, 'permanent'],
  [200, 'permanent'],
] as const)('HTTP %d with a code that is not known, or none: %s', (status, meaning) => {
  expect(meaningOf(null, status)).toBe(meaning);
  expect(meaningOf(99_999, status)).toBe(meaning);
});
