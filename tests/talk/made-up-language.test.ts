/** A language is added by copying a folder: here a tiny made-up one, heard and answered by the real line. */
import { cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { makeSheet } from '../../src/commands/sheet.ts';
import { readVoices } from '../../src/sweeps/read-voices.ts';
import { realTalk } from '../../src/sweeps/real-talk.ts';
import { takeText } from '../../src/web/take-text.ts';
import { newFolder, testLine } from '../support/test-line.ts';
import { ANN, VALLEY } from '../support/valley-scheme.ts';

const ENGLISH = resolve(import.meta.dirname, '../../locales/en');
const json = (path: string) => JSON.parse(readFileSync(path, 'utf8')) as Record<string, unknown>;

/** The shape of a word list with no word in it. */
function emptied(value: unknown): unknown {
  if (Array.isArray(value)) return value.every((one) => Array.isArray(one)) ? value.map(() => []) : [];
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, emptied(one)]));
}

const WORDS = {
  language: 'zzt',
  spellings: {},
  patterns: { done: ['mu~'], not: ['ku~'], future: ['ta~'] },
  activities: { plough: { stems: ['plafo'] }, clear: { stems: ['ridda'] } },
  verbs: {},
  things: {},
  meanings: [],
  plots: { one: ['lim'], many: ['limim'], all: ['olla'] },
  joins: { and: ['ne'] },
  numbers: { words: { sipto: 3 }, endings: [], beforePlots: [] },
  units: { cm: { words: ['cm'], kind: 'length', factor: 1 } },
  shares: { words: {}, parts: {}, percent: [], rest: [], restOf: [] },
  asks: { phrases: { next: ['wotto'] }, alone: {} },
  languages: { en: ['inglo'] },
  account: { language: ['tongu'] },
};

/** Copies the English folder, puts the words above in, and says its messages with another opening. */
function madeUpFolder(): string {
  const locales = newFolder(onTestFinished);
  const folder = join(locales, 'zzt');
  cpSync(ENGLISH, join(locales, 'en'), { recursive: true });
  mkdirSync(folder);
  const bare = emptied(json(join(ENGLISH, 'words.json'))) as { dates: object };
  const dates = { ...bare.dates, offsets: { tok: 1, dje: -1 } };
  writeFileSync(join(folder, 'words.json'), JSON.stringify({ ...bare, ...WORDS, dates }));
  const messages = json(join(ENGLISH, 'messages.json')) as { done: Record<string, string> };
  messages.done['plough'] = '{{which}} muplafo';
  writeFileSync(join(folder, 'messages.json'), JSON.stringify(messages));
  cpSync(join(ENGLISH, 'screens.json'), join(folder, 'screens.json'));
  const calendar = json(join(ENGLISH, 'calendar.json'));
  writeFileSync(
    join(folder, 'calendar.json'),
    JSON.stringify({ ...calendar, language: 'Zzt', pluralsLike: 'en' }),
  );
  return locales;
}

test('it is heard and said without a line of code', async () => {
  const locales = madeUpFolder();
  const line = await testLine(onTestFinished, {
    voices: readVoices(locales),
    talk: realTalk,
    schemeText: VALLEY.replace('languages: [en]', 'languages: [zzt, en]').replaceAll('lang: en', 'lang: zzt'),
  });
  let count = 0;
  const send = (text: string) => takeText(line, { carrierId: `SM${count++}`, from: ANN, text });
  const kept = () => line.db.selectFrom('reports').select(['activity', 'done_on']).execute();

  expect(await send('muplafo lim 1 dje, 12 cm')).toContain('Plot 1 muplafo Tue 9 Mar');
  expect(await kept()).toEqual([{ activity: 'plough', done_on: '2027-03-09' }]);
  await send('kuplafo lim 2');
  await send('taplafo lim 2 tok');
  expect(await kept()).toHaveLength(1);
  expect(await send('wotto')).toContain('Plot 1');
  await send('muridda olla dje');
  expect((await kept()).length).toBeGreaterThan(1);
  expect(await send('inglo')).toMatch(/English|language/i);
});

test('its sheet is made as any other', () => {
  const { page } = makeSheet('zzt', madeUpFolder());
  expect(page).toContain('# Zzt (zzt)');
  expect(page).toContain('muplafo');
});
