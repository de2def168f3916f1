import { expect, test } from 'vitest';
import { faultNote, phoneTail } from '../../src/sweeps/fault-note.ts';

test.each(['+447700900123', '07700 900123', '(07700) 900-123', '447700900123'])(
  '%s never stands in a note',
  (number) => {
    const error = new Error(`no plan for ${number}!`, { cause: new Error(`${number} again`) });
    const note = faultNote(error);
    expect(note.message).toMatch(/^no plan for .*\[digits\]!; caused by .*\[digits\] again$/);
    expect(JSON.stringify(note)).not.toMatch(/7700/);
  },
);

test('what is thrown but is no error is named by its kind only', () => {
  expect(faultNote('+447700900123')).toEqual({
    name: 'string',
    message: 'a value that is no error',
    stack: '',
  });
});

test('a phone is its last two digits', () => {
  expect(phoneTail('+447700900123')).toBe('..23');
});
