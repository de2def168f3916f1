/** The walls of the house: who may import whom, and what the pure rooms may never touch. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const SRC = resolve(import.meta.dirname, '../src');
/** From the ground up: a room may import from itself and from those before it. */
const ROOMS = [
  'plan',
  'agronomy',
  'scheme',
  'hear',
  'say',
  'talk',
  'store',
  'carriers',
  'sweeps',
  'web',
  'commands',
];
const PURE = ROOMS.slice(0, 6);
/** Small things at the top that rooms of the shell may use. */
const SHARED = ['clock.ts'];

const files = readdirSync(SRC, { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.ts'));
const roomOf = (file: string) => file.split('/')[0] ?? '';
const importsOf = (file: string) =>
  [...readFileSync(join(SRC, file), 'utf8').matchAll(/(?:from|import\()\s*'([^']+)'/g)].map(
    (match) => match[1] ?? '',
  );

describe('the house', () => {
  it('has only rooms that everybody knows', () => {
    const rooms = new Set(files.filter((file) => file.includes('/')).map(roomOf));
    expect([...rooms].filter((room) => !ROOMS.includes(room))).toEqual([]);
  });

  it.each(files.filter((file) => file.includes('/')))('%s imports downward only', (file) => {
    const own = ROOMS.indexOf(roomOf(file));
    for (const target of importsOf(file).filter((name) => name.startsWith('.'))) {
      const path = relative(SRC, join(SRC, dirname(file), target));
      if (SHARED.includes(path)) {
        expect(PURE).not.toContain(roomOf(file));
        continue;
      }
      expect(ROOMS.indexOf(roomOf(path)), `${file} imports ${path}`).toBeLessThanOrEqual(own);
      expect(ROOMS.indexOf(roomOf(path)), `${file} imports ${path}`).toBeGreaterThanOrEqual(0);
    }
  });

  it.each(files.filter((file) => PURE.includes(roomOf(file))))(
    '%s has no clock, chance, IO or waiting',
    (file) => {
      const code = readFileSync(join(SRC, file), 'utf8').replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, '');
      expect(code).not.toMatch(
        /Math\.random|\bDate\b|\bperformance\b|Temporal\.Now|\bprocess\b|\bconsole\b|\bfetch\(|\basync\b|\bawait\b|\bPromise\b/,
      );
      expect(importsOf(file).filter((name) => name.startsWith('node:'))).toEqual([]);
    },
  );
});
