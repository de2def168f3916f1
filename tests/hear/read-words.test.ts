import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { hear } from '../../src/hear/hear.ts';
import { readWords } from '../../src/hear/read-words.ts';
import { LANGUAGES, TODAY } from './languages.ts';

type Raw = Record<string, unknown>;

const english = (): Raw =>
  JSON.parse(readFileSync(new URL('../../locales/en/words.json', import.meta.url), 'utf8')) as Raw;

const mistakesOf = (change: (list: Raw) => void): readonly string[] => {
  const list = english();
  change(list);
  const read = readWords(list);
  return read.ok ? [] : read.mistakes;
};

describe('mistakes in a word list', () => {
  test('every one is named with its place', () => {
    const mistakes = mistakesOf((list) => {
      (list['activities'] as Record<string, Record<string, unknown>>)['plough']!['done'] = ['ploughed', ''];
      (list['dates'] as Record<string, unknown>)['months'] = [['january']];
      (list as Record<string, unknown>)['colour'] = 'red';
    });
    expect(mistakes).toContainEqual(expect.stringMatching(/^activities\.plough\.done\.1: /));
    expect(mistakes).toContainEqual(expect.stringMatching(/^dates\.months: .*twelve/));
    expect(mistakes).toContainEqual(expect.stringContaining('colour'));
  });

  test('a word of two activities, a meaning of nothing and a known word of ours are told', () => {
    const mistakes = mistakesOf((list) => {
      (list['activities'] as Record<string, Record<string, string[]>>)['drain']!['done']!.push('mowed');
      (list['meanings'] as unknown[]).push({ verb: 'fly', means: ['plough'] });
      (list['knownWords'] as string[]).push('ploughed');
    });
    expect(mistakes).toContainEqual(expect.stringMatching(/^drain\.done\.\d+: "mowed" also means clear/));
    expect(mistakes).toContainEqual(expect.stringMatching(/^meanings\.\d+\.verb: "fly"/));
    expect(mistakes).toContainEqual(expect.stringMatching(/^knownWords\.\d+: "ploughed"/));
  });

  test('what is no list at all is a mistake, never a fault', () => {
    for (const raw of [null, 3, 'words', [], {}]) expect(readWords(raw).ok).toBe(false);
  });
});

describe('a language whose verbs carry person, time and denial in front', () => {
  const list = english();
  Object.assign(list, {
    patterns: {
      done: ['nime~', 'tume~'],
      plain: ['~'],
      not: ['sija~', 'hatuja~'],
      future: ['nita~', 'tuta~'],
    },
    activities: {
      plough: {
        stems: ['lima'],
        done: [],
        plain: [],
        doing: ['kulima'],
        naming: [],
        same: [],
        not: [],
        future: [],
      },
    },
    verbs: {},
    meanings: [],
    knownWords: [],
  });
  const read = readWords(list);
  const kind = (text: string) =>
    read.ok ? hear(text, read.lexicon, TODAY).readings[0]?.kind : read.mistakes;

  test.each([
    ['nimelima plot 3', 'report'],
    ['sijalima plot 3', 'not-done'],
    ['nitalima plot 3', 'intend'],
    ['tumelima plot 3 yesterday', 'report'],
    ['nimelma plot 3', 'report'],
  ])('%s', (text, expected) => expect(kind(text)).toBe(expected));

  test('a slip never turns a denial into a report', () => {
    for (const text of ['sijalma plot 3', 'sjalima plot 3', 'sijalimma plot 3', 'sijlaima plot 3'])
      expect(kind(text)).not.toBe('report');
  });
});

test('every language list is free of mistakes', () => {
  expect(LANGUAGES.length).toBeGreaterThan(0);
});
