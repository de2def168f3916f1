import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { languagesIn, makeSheet, sheetCommand } from '../../src/commands/sheet.ts';
import { faultOf } from './fault-of.ts';
import { ENGLISH_CALENDAR, FRENCH_CALENDAR } from './fixtures.ts';

let locales: string;

beforeEach(() => {
  locales = mkdtempSync(join(tmpdir(), 'locales-'));
  put('en', 'messages', { done: 'Plot {{plot}} done.', ask: 'Send NEXT.' });
  put('en', 'calendar', ENGLISH_CALENDAR);
});
afterEach(() => rmSync(locales, { recursive: true }));

function put(lang: string, file: string, data: unknown): void {
  mkdirSync(join(locales, lang), { recursive: true });
  writeFileSync(join(locales, lang, `${file}.json`), JSON.stringify(data));
}

test('languages are the folders that have messages', () => {
  put('sw', 'calendar', {});
  put('fr', 'messages', {});
  expect(languagesIn(locales)).toEqual(['en', 'fr']);
});

test('a sheet needs no word list; then it has nothing to read back', () => {
  const { page, complaints } = makeSheet('en', locales);
  expect(complaints).toEqual([]);
  expect(page).toContain('\n| NEXT | ask | - |\n');
});

test('a word list with mistakes is said to have them', () => {
  put('en', 'words', {});
  expect(makeSheet('en', locales).page).toMatch(/\| NEXT \| ask \| words\.json: \d+ mistakes \|/);
});

test('another language is held against English', () => {
  put('fr', 'messages', { done: 'Parcelle prête.', more: 'Envoyez STOP.' });
  put('fr', 'calendar', FRENCH_CALENDAR);
  expect(makeSheet('fr', locales).complaints).toEqual([
    'ask: lacking',
    'more: not in en',
    'done: without plot',
    'done: holds ê',
    'more: asks for STOP, which carriers keep',
  ]);
});

test('a placeholder without a sample stops the sheet', () => {
  put('en', 'messages', { done: 'Plot {{never}} done.' });
  expect(faultOf(() => makeSheet('en', locales))).toMatchObject({ code: 'missing-sample', names: ['never'] });
});

test.each([[['--lang', 'xx']], [['--lnag', 'en']], [['en']]])(
  'a request that cannot be met ends with 2: %j',
  async (args) => {
    expect(await sheetCommand(args)).toBe(2);
  },
);
