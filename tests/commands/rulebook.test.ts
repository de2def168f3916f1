import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, onTestFinished, test, vi } from 'vitest';
import { makeRulebookPage, RULEBOOK_FILE, rulebookCommand } from '../../src/commands/rulebook.ts';
import { newFolder } from '../support/test-line.ts';

function run(args: readonly string[], file?: string) {
  const [out, err]: [string[], string[]] = [[], []];
  vi.spyOn(process.stdout, 'write').mockImplementation((text) => out.push(String(text)) > 0);
  vi.spyOn(process.stderr, 'write').mockImplementation((text) => err.push(String(text)) > 0);
  const code = rulebookCommand(args, file);
  vi.restoreAllMocks();
  return { code, out: out.join(''), err: err.join('') };
}

afterEach(() => vi.restoreAllMocks());

test('the kept page is that of the data: after a change, npm run -s rulebook -- --write', () => {
  expect(readFileSync(RULEBOOK_FILE, 'utf8')).toBe(makeRulebookPage());
});

test('every rule has a reason in English', () => {
  expect(makeRulebookPage()).toContain('| young seedlings give many tillers, old ones few. |');
  expect(makeRulebookPage()).not.toContain('no reason is written yet');
});

describe('the command', () => {
  test('prints the page', () => {
    expect(run([])).toEqual({ code: 0, out: makeRulebookPage(), err: '' });
  });

  test('writes the page and prints nothing', () => {
    const file = join(newFolder(onTestFinished), 'rulebook.md');
    expect(run(['--write'], file)).toEqual({ code: 0, out: '', err: '' });
    expect(readFileSync(file, 'utf8')).toBe(makeRulebookPage());
  });

  test.each([[['--wirte']], [['soak']], [['--write', 'soak']], [['--write=no']]])(
    'refuses %j and writes nothing',
    (args) => {
      const file = join(newFolder(onTestFinished), 'rulebook.md');
      expect(run(args, file)).toMatchObject({ code: 2, out: '', err: expect.stringContaining('usage') });
      expect(existsSync(file)).toBe(false);
    },
  );
});
