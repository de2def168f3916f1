import { describe, expect, test } from 'vitest';
import { MAIN } from '../../../src/talk/screens/screen.ts';
import { session, speaking, TODAY, VOICES } from '../../support/screen-phone.ts';
import { ASHAS, lines, plotOf } from '../../support/small-phone.ts';

const reportsOf = (phone: ReturnType<typeof session>) => lines(phone.kept().reports);

test('a report is picked, confirmed and recorded', () => {
  const phone = session(ASHAS);
  expect(phone.keys().shown).toBe(
    '1 Report work\n2 Next step\n3 Dates\n4 Level survey\n5 Trouble\n6 Language\n0 Close',
  );
  expect(phone.keys('1').shown).toBe('Which plot?\n1 Plot 1 (U-1)\n2 Plot 2 (U-2)\n3 Plot 3 (U-3)\n0 Back');
  expect(phone.keys('3').shown).toMatch(/^Plot 3: what is done\?\n1 clearing\n/);
  expect(phone.keys('1').shown).toBe('Plot 3: clearing.\n1 Today\n2 Yesterday\n3 Another day\n0 Back');
  expect(phone.keys('2').shown).toBe('Plot 3 cleared Tue 9 Mar.\n1 Record it\n0 Back');
  expect(reportsOf(phone)).toEqual([]);
  expect(phone.keys('1').shown).toMatch(/^Plot 3 cleared Tue 9 Mar\. /);
  expect(reportsOf(phone)).toEqual(['clear 2027-03-09']);
});

test('some days ago: 0 is today and 999 goes back', () => {
  const phone = session(ASHAS);
  phone.keys('1', '1', '1', '3');
  expect(phone.keys('999').shown).toMatch(/^Plot 1: clearing\./);
  phone.keys('3');
  expect(phone.keys('0').shown).toMatch(/^Plot 1 cleared Wed 10 Mar\./);
  phone.keys('0', '3');
  expect(phone.keys('12').shown).toMatch(/^Plot 1 cleared Fri 26 Feb\./);
  phone.keys('0', '3');
  expect(phone.keys('100').shown).toMatch(/^A number from 0 to 99\.\nPlot 1: clearing\./);
});

test('nobody confirms what was not shown: keys behind are dropped', () => {
  const phone = session(ASHAS);
  expect(phone.keys('1', '1', '1', '1', '1', '1').shown).toMatch(/^Plot 1 cleared Wed 10 Mar\.\n1 Record it/);
  expect(reportsOf(phone)).toEqual([]);
  phone.keys('1', '1', '1');
  expect(reportsOf(phone)).toEqual(['clear 2027-03-10']);
});

test('a level survey takes a 0 as a depth, and 999 takes the last one away', () => {
  const phone = session(ASHAS);
  expect(phone.keys('4', '2').shown).toBe(
    'Plot 2: hold a stick in the water at each spot and read the depth in cm.\nSpot 1, a corner: depth in cm?\n999 Back',
  );
  phone.keys('4');
  phone.keys('0');
  expect(phone.keys('101').shown).toBe('A number from 0 to 100.\nSpot 3, a corner: depth in cm?\n999 Back');
  expect(phone.keys('999').shown).toMatch(/^Spot 2/);
  phone.keys('5');
  phone.keys('4');
  phone.keys('5');
  expect(phone.keys('4').shown).toBe('Plot 2: 4 5 4 5 4 cm.\n1 Record it\n0 Back');
  expect(phone.keys('1').shown).toMatch(/Plot 2 levelled/);
  expect(phone.kept().reports).toMatchObject([
    { activity: 'level', stage: 'finished', measures: { spotsCm: [4, 5, 4, 5, 4] } },
  ]);
});

test('a depth may have one decimal, by point or comma; days ago are whole', () => {
  const phone = session(ASHAS);
  phone.keys('4', '2', '4.5', '4,5');
  const wrong = /^A number from 0 to 100\.\nSpot 3/;
  for (const key of ['4.55', '4.', ',5', '4.5.5', '4, 5', '100.5', '-4.5', '4e1', '999.5'])
    expect(phone.keys(key).shown, key).toMatch(wrong);
  phone.keys('১.৫');
  phone.keys('100.0');
  expect(phone.keys('999').shown).toMatch(/^Spot 4/);
  for (const depth of ['3', '3,0']) phone.keys(depth);
  expect(phone.keys().shown).toBe('Plot 2: 4.5 4.5 1.5 3 3 cm.\n1 Record it\n0 Back');
  phone.keys('1');
  expect(phone.kept().reports).toMatchObject([{ measures: { spotsCm: [4.5, 4.5, 1.5, 3, 3] } }]);
  phone.keys('0', '1', '1', '1', '3');
  for (const key of ['1.5', '1,5', '1.0'])
    expect(phone.keys(key).shown, key).toMatch(/^A number from 0 to 99/);
});

test('an uneven plot is asked for nine spots, and the sum is that of a text', () => {
  const phone = session(ASHAS);
  phone.keys('4', '1', '4', '0', '9', '12');
  expect(phone.keys('5').shown).toMatch(/^Spot 6/);
  phone.keys('6', '7', '8');
  expect(phone.keys('3').shown).toMatch(/^Plot 1: 4 0 9 12 5 6 7 8 3 cm\./);
  phone.keys('1');
  expect(phone.kept().reports).toMatchObject([
    { activity: 'level', stage: 'started', measures: { spotsCm: [4, 0, 9, 12, 5, 6, 7, 8, 3] } },
  ]);
});

test('a trouble goes to the list of the agent with its words', () => {
  const phone = session(ASHAS);
  phone.keys('5', '2');
  expect(phone.keys('1').shown).toBe('Plot 2: no water.\n1 Tell the officer\n0 Back');
  const { effects, shown } = phone.keys('1');
  expect(effects).toContainEqual({
    do: 'note-trouble',
    seasonId: 's2',
    what: 'no-water',
    until: null,
    words: 'no water',
  });
  expect(shown).toMatch(/^Noted for Valley office: no water\./);
});

test('with one plot nobody is asked which', () => {
  const phone = session({ ...ASHAS, plots: [plotOf('7')] });
  expect(phone.keys('1').shown).toMatch(/^Plot 7: what is done\?/);
});

test('without a plot the conversation says so', () => {
  expect(session({ ...ASHAS, plots: [] }).keys('1').shown).toMatch(/Valley office/);
});

test('many plots are paged, and each is reached', () => {
  const plots = Array.from({ length: 23 }, (_, index) => plotOf(String(index + 1)));
  const phone = session({ ...ASHAS, plots });
  const seen: string[] = [];
  let { shown } = phone.keys('1');
  const read = () => seen.push(...[...shown.matchAll(/Plot (\d+) /g)].map(([, number = '']) => number));
  read();
  while (shown.includes('9 More')) {
    shown = phone.keys('9').shown;
    read();
  }
  expect(seen).toEqual(plots.map(({ number }) => number));
  expect(phone.keys('9').shown).toMatch(/^Not on the list\./);
  const [, last = ''] = /(\d) Plot 23 /.exec(shown) ?? [];
  expect(phone.keys(last).shown).toMatch(/^Plot 23: what is done/);
});

test('a question that the conversation asks back is answered by its number', () => {
  const phone = session(ASHAS);
  const find = (label: RegExp): void => {
    let { shown } = phone.keys();
    for (let turn = 0; turn < 5; turn += 1) {
      const key = label.exec(shown)?.[1];
      if (key !== undefined) return void phone.keys(key);
      shown = phone.keys('9').shown;
    }
    throw new Error(`no ${label}`);
  };
  phone.keys('1', '1');
  find(/(\d) harvest/);
  phone.keys('1');
  expect(phone.keys('1').effects.some((effect) => effect.do === 'record')).toBe(false);
  const asks = phone.screen();
  expect(asks).toMatchObject({ at: 'answer' });
  let { shown } = phone.keys();
  while (shown.includes('9 More')) shown = phone.keys('9').shown;
  expect(shown).toMatch(/1 /);
  const { effects } = phone.keys('1');
  expect(effects.some((effect) => effect.do === 'record')).toBe(true);
});

test.each(VOICES.map(({ lang }) => lang))('%s: a language is picked under its own name', (lang) => {
  const phone = session(speaking('en'));
  let { shown } = phone.keys('6');
  const name = VOICES.find((voice) => voice.lang === lang)?.say({
    sentences: [{ key: 'account.language-name' }],
  });
  while (!shown.includes(` ${name}`)) shown = phone.keys('9').shown;
  const key = new RegExp(`(\\d) ${name}`).exec(shown)?.[1] ?? '';
  expect(phone.keys(key).effects).toContainEqual({ do: 'set-language', personId: 'asha', lang });
});

describe('where a hit may come again as a key pressed anew', () => {
  test('what records is confirmed by another key than the one that led there', () => {
    const phone = session(ASHAS, MAIN, true);
    phone.keys('1', '1', '1');
    expect(phone.keys('1').shown).toBe('Plot 1 cleared Wed 10 Mar.\n2 Record it\n0 Back');
    for (let again = 0; again < 3; again++)
      expect(phone.keys('1').shown).toMatch(/^Not on the list\.\nPlot 1/);
    phone.keys('0');
    expect(phone.keys('2').shown).toBe('Plot 1 cleared Tue 9 Mar.\n1 Record it\n0 Back');
    expect(phone.keys('2').shown).toMatch(/^Not on the list/);
    expect(reportsOf(phone)).toEqual([]);
    phone.keys('1');
    expect(reportsOf(phone)).toEqual(['clear 2027-03-09']);
  });

  test('also than the first of several keys of one hit', () => {
    const phone = session(ASHAS, MAIN, true);
    expect(phone.keys('1', '1', '1', '2').shown).toMatch(/\n2 Record it\n/);
    expect(phone.keys('1', '1', '1', '2').effects).toEqual([]);
    expect(reportsOf(phone)).toEqual([]);
  });

  test('a number of an answer is confirmed too, and can be taken back', () => {
    const phone = session(ASHAS, { at: 'answer', text: '1 this 2 that', page: 0, picks: 2 }, true);
    expect(phone.keys('1').shown).toBe('Answer 1.\n2 Send it\n0 Back');
    expect(phone.keys('1').shown).toMatch(/^Not on the list/);
    expect(phone.keys('0').shown).toMatch(/^1 this 2 that/);
    expect(phone.keys('2').shown).toBe('Answer 2.\n1 Send it\n0 Back');
    expect(phone.keys('1').effects).not.toEqual([]);
  });

  test('a session that was lost before the confirming is gone on with by a key that does not confirm', () => {
    const left = { at: 'sure-report', plotId: 'p1', activity: 'clear', on: TODAY, key: 1 } as const;
    const phone = session(ASHAS, { at: 'resume', left }, true);
    expect(phone.keys('1').shown).toMatch(/\n2 Record it\n/);
    expect(phone.keys('1').effects).toEqual([]);
    expect(reportsOf(phone)).toEqual([]);
  });
});
