import { cpSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { parseDay } from '../../src/plan/day.ts';
import { readVoices } from '../../src/sweeps/read-voices.ts';
import { newFolder } from '../support/test-line.ts';

test('English comes first, hears and speaks', () => {
  const [voice] = readVoices();
  expect(voice?.lang).toBe('en');
  expect(voice?.hear('ploughed plot 1', parseDay('2027-03-10') ?? 0).readings).toMatchObject([
    { kind: 'report' },
  ]);
  expect(voice?.say({ sentences: [{ key: 'fault.ours' }] })).toMatch(/wrong/);
});

test('a language that is not complete is left out; one that is malformed stops the start and says where', () => {
  const locales = newFolder(onTestFinished);
  cpSync('locales/en', join(locales, 'en'), { recursive: true });
  mkdirSync(join(locales, 'xx'));
  expect(readVoices(locales).map((voice) => voice.lang)).toEqual(['en']);
  writeFileSync(join(locales, 'en', 'words.json'), '{}');
  expect(() => readVoices(locales)).toThrow(/^locales\/en\/words\.json: /);
});
