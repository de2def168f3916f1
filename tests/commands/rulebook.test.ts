import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, onTestFinished, test, vi } from 'vitest';
import { makeRulebookPage, RULEBOOK_FILE, rulebookCommand } from '../../src/commands/rulebook.ts';
import { newFolder } from '../support/test-line.ts';
import { VALLEY } from '../support/valley-scheme.ts';

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

  test.each([
    [['--wirte']],
    [['soak']],
    [['--write', 'soak']],
    [['--write=no']],
    [['--scheme']],
    [['--scheme', 'a.yaml', '--write']],
  ])('refuses %j and writes nothing', (args) => {
    const file = join(newFolder(onTestFinished), 'rulebook.md');
    expect(run(args, file)).toMatchObject({ code: 2, out: '', err: expect.stringContaining('usage') });
    expect(existsSync(file)).toBe(false);
  });
});

describe('the book of a scheme', () => {
  function schemeFile(text: string): string {
    const path = join(newFolder(onTestFinished), 'valley.yaml');
    writeFileSync(path, text);
    return path;
  }
  const OWN = `${VALLEY}rulebook:
  figures:
    - { figure: plough-depth.max, value: 20, source: "Soil survey: 2025" }
  rules:
    - { rule: rot, lo: 16, aim: 18, hi: 25, source: "Valley office: trials" }
`;

  test('is printed with its own figures, marked as such', () => {
    const { code, out, err } = run(['--scheme', schemeFile(OWN)]);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/^# The rulebook of Test Valley\n/);
    expect(out).toContain("| plough-depth.max | 20 | cm | Soil survey: 2025 [scheme's own] |");
    expect(out).toMatch(
      /^\| rot \| .* \| 16 \| 18 \| 25 \| should \| .* \| Valley office: trials \[scheme's own\] \| all \|$/m,
    );
  });

  test('is the default one, but for its heading, where the scheme has no figures', () => {
    const { out } = run(['--scheme', schemeFile(VALLEY)]);
    const body = (page: string) => page.slice(page.indexOf('\nA rule is'));
    expect(body(out)).toBe(body(makeRulebookPage()));
  });

  test('with mistakes is not printed; they are listed with file and line', () => {
    const path = schemeFile(OWN.replace('lo: 16, aim: 18', 'lo: 26, aim: null'));
    expect(run(['--scheme', path])).toEqual({
      code: 2,
      out: '',
      err: `${path}: line ${OWN.split('\n').length - 1}, rulebook, rules, 1: rot: at least 26 days is more than at most 25\n`,
    });
  });

  test('from a file that is not there is refused', () => {
    const path = join(newFolder(onTestFinished), 'none.yaml');
    expect(run(['--scheme', path])).toEqual({ code: 2, out: '', err: `${path} cannot be read\n` });
  });
});
