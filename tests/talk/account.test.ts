import { describe, expect, test } from 'vitest';
import { ASHAS, type Kept, NOBODY, phone } from '../support/small-phone.ts';

/** Phones in every state that a conversation can stand in. */
const STATES: readonly (readonly [string, () => Kept])[] = [
  ['nothing asked', () => ASHAS],
  ['asked which plot', () => texted(ASHAS, 'ploughed')],
  ['asked a numbered question', () => texted(ASHAS, 'not ploughed 3')],
  ['asked whether to forget', () => texted(ASHAS, 'forget me')],
  ['a stranger', () => NOBODY],
  ['joining, asked for consent', () => texted(NOBODY, 'join orrowe')],
  ['joining, asked for the name', () => texted(NOBODY, 'join orrowe', 'yes')],
  ['joining, asked for areas', () => texted(NOBODY, 'join orrowe', 'yes', 'Nala', '2')],
];

function texted(start: Kept, ...texts: readonly string[]): Kept {
  const one = phone(start);
  for (const text of texts) one.text(text);
  return one.kept();
}

describe.each(STATES)('%s', (_, start) => {
  test.each(['STOP', 'stop', 'Stop.'])('%s wins, is confirmed once, then silence', (text) => {
    const one = phone(start());
    expect(one.text(text)).toMatchObject({ keys: ['account.stopped'], recorded: [] });
    expect(one.kept().stopped).toBe(true);
    const second = one.text(text);
    expect(second.effects).toEqual([]);
    expect(second.said).toBe('');
  });

  test('STOP drops the question: a number answered to it afterwards does nothing', () => {
    const one = phone(start());
    one.text('stop');
    const reports = one.kept().reports;
    expect(one.kept().state?.standing.at ?? 'idle').toBe('idle');
    one.text('1');
    expect(one.kept().reports).toEqual(reports);
    expect(one.kept().people).toEqual(start().people);
  });

  test('START brings the texts back', () => {
    const one = phone(start());
    one.text('stop');
    expect(one.text('START').keys).toEqual(['account.started']);
    expect(one.kept().stopped).toBe(false);
  });
});

test('a stopped number still has its texts answered, and its reports recorded', () => {
  const asha = phone();
  asha.text('stop');
  expect(asha.text('ploughed 1').recorded).toHaveLength(1);
  expect(asha.kept().stopped).toBe(true);
});

describe('FORGET ME', () => {
  test('asks first and changes nothing by itself', () => {
    const asha = phone();
    expect(asha.text('forget me')).toMatchObject({
      recorded: [],
      keys: expect.arrayContaining(['account.forget-sure']),
    });
    expect(asha.kept().people).toHaveLength(1);
  });

  test.each(['2', 'no', 'ploughed 1', 'next'])('"%s" keeps everything', (text) => {
    const asha = phone();
    asha.text('forget me');
    expect(asha.text(text).effects.map((effect) => effect.do)).not.toContain('forget');
    expect(asha.text('1').keys).toEqual(['choice.no-question']);
  });

  test('1 forgets; the number is a stranger’s from then on', () => {
    const asha = phone();
    asha.text('forget me');
    const { effects, keys } = asha.text('1');
    expect(effects).toContainEqual({ do: 'forget', personId: 'asha' });
    expect(keys).toEqual(['account.forgotten']);
    expect(asha.text('ploughed 1')).toMatchObject({ keys: ['menu.stranger'], recorded: [] });
  });
});

test('a name is changed', () => {
  const asha = phone();
  expect(asha.text('my name is Asha B').effects).toContainEqual({
    do: 'rename',
    personId: 'asha',
    name: 'Asha B',
  });
});

test('a language that the scheme does not have is refused with those it has', () => {
  const { effects, keys } = phone().text('language swahili');
  expect(keys).toEqual(['account.language-none']);
  expect(effects.map((effect) => effect.do)).toEqual(['say']);
});

test('one who has joined is not asked to join again', () => {
  const asha = phone();
  expect(asha.text('join orrowe').keys).toEqual(['account.known']);
  expect(asha.kept().people).toEqual(ASHAS.people);
});
