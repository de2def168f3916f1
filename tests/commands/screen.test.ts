import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { screens } from '../../src/commands/screen.ts';

const COLUMNS = 40;

/** What stands inside the frames. */
const inside = (rows: readonly string[]) =>
  rows.filter((row) => row.startsWith('| ')).map((row) => row.slice(2, -2).trimEnd());
const heads = (rows: readonly string[]) => rows.filter((row) => row.startsWith('+- '));

test('a short text is one frame with its title', () => {
  expect(screens('Plot 3 ploughed.', 'reply')).toEqual([
    `+- reply ${'-'.repeat(34)}+`,
    `| Plot 3 ploughed.${' '.repeat(24)} |`,
    `+${'-'.repeat(42)}+`,
  ]);
});

test('every row has the same width', () => {
  const rows = screens('Next: flood it to 10 cm by Wed 10 Mar and keep it so till Wed 24 Mar.', 'reminder');
  expect(new Set(rows.map((row) => row.length))).toEqual(new Set([COLUMNS + 4]));
});

describe('wrapping', () => {
  test('is between words, at 40', () => {
    expect(inside(screens(`${'a'.repeat(20)} ${'b'.repeat(19)} c`, 'reply'))).toEqual([
      `${'a'.repeat(20)} ${'b'.repeat(19)}`,
      'c',
    ]);
    const tooLong = ['a'.repeat(20), 'b'.repeat(20)];
    expect(inside(screens(tooLong.join(' '), 'reply'))).toEqual(tooLong);
  });

  test('cuts a word that is longer than a row', () => {
    expect(inside(screens('x'.repeat(95), 'reply')).map((row) => row.length)).toEqual([40, 40, 15]);
    expect(inside(screens(`go ${'x'.repeat(45)} on`, 'reply'))).toEqual(['go', 'x'.repeat(40), 'xxxxx on']);
  });

  test('keeps the line breaks of the text', () => {
    expect(inside(screens('one\ntwo', 'reply'))).toEqual(['one', 'two']);
  });
});

describe('parts', () => {
  test('up to 160 characters are one frame without a number', () => {
    expect(heads(screens('a '.repeat(80), 'reply'))).toEqual([`+- reply ${'-'.repeat(34)}+`]);
  });

  test('a longer text has a frame for each part, numbered', () => {
    const numbered = heads(screens('a '.repeat(200), 'reply')).map((row) => /reply (\d\/\d)/.exec(row)?.[1]);
    expect(numbered).toEqual(['1/3', '2/3', '3/3']);
  });
});

test('nothing of a text is lost, whatever its words', () => {
  const word = fc.string({ unit: fc.constantFrom(...'abcdefg0123.,!'), minLength: 1, maxLength: 60 });
  fc.assert(
    fc.property(fc.array(word, { minLength: 1, maxLength: 20 }), (words) => {
      const rows = screens(words.join(' '), 'reply');
      expect(inside(rows).join('').replaceAll(' ', '')).toBe(words.join(''));
      for (const row of rows) expect(row).toHaveLength(COLUMNS + 4);
    }),
  );
});
