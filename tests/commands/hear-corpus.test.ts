import { describe, expect, test } from 'vitest';
import { judge, readCorpus } from '../../src/commands/hear-corpus.ts';
import { ENGLISH } from '../hear/languages.ts';

const HEAD = 'today: 2027-03-10\n';
const group = (reads: string, said: string) =>
  `${HEAD}groups:\n  - reads: [${reads}]\n    texts: ["${said}"]\n`;
const PLOUGHED = '{"kind":"report","activity":"plough","plots":["3"]}';

const verdictOf = (corpus: string) =>
  judge(readCorpus(corpus), ENGLISH.lexicon).map(({ verdict }) => verdict);

describe('a corpus is judged', () => {
  test.each([
    ['right', PLOUGHED, 'ploughed plot 3 today'],
    ['asked', PLOUGHED, 'zzxxq bbvvn'],
    ['wrong', PLOUGHED, 'not ploughed plot 3'],
    ['wrongly-recorded', PLOUGHED, 'ploughed plot 4'],
    ['wrongly-recorded', PLOUGHED, 'ploughed plot 3 and 4'],
    ['wrongly-recorded', PLOUGHED, 'ploughed plot 3, weeded plot 2'],
    ['wrong', `${PLOUGHED},{"kind":"undo"}`, 'ploughed plot 3'],
  ])('%s', (verdict, reads, said) => {
    expect(verdictOf(group(reads, said))).toEqual([verdict]);
  });

  test('a refused text is right unless a report comes of it', () => {
    const refused = (text: string) =>
      `${HEAD}neverReport: ["${text}"]\nunclear: { future-date: ["${text}"] }`;
    expect(verdictOf(refused('will plough plot 3'))).toEqual(['right', 'right']);
    expect(verdictOf(refused('ploughed plot 3'))).toEqual(['wrongly-recorded', 'wrongly-recorded']);
  });

  test('a day that cannot be is refused with its file', () => {
    expect(() => readCorpus('today: 2027-02-30\n')).toThrow('2027-02-30');
    expect(() => readCorpus(`${HEAD}grups: []\n`)).toThrow('grups');
  });
});
