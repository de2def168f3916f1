import { describe, expect, test } from 'vitest';
import { ASHAS, type Kept, NOBODY, phone } from '../support/small-phone.ts';

/** Phones in every state that a conversation can stand in. */
const STATES: readonly (readonly [string, () => Kept])[] = [
  ['nothing asked', () => ASHAS],
  ['asked which plot', () => texted(ASHAS, 'ploughed')],
  ['asked a numbered question', () => texted(ASHAS, 'not ploughed 3')],
  ['asked whether to forget', () => texted(ASHAS, 'forget me')],
  ['asked for depths', () => texted(ASHAS, 'level 1')],
  ['asked whether to undo', () => texted(ASHAS, 'ploughed 1', 'undo')],
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
  test.each(['STOP', 'Stop.', 'END', 'cancel', 'ARRET', 'acha', "please don't text me again"])(
    '%s wins, is confirmed once, then silence',
    (text) => {
      const one = phone(start());
      expect(one.text(text)).toMatchObject({ keys: ['account.stopped'], recorded: [] });
      expect(one.kept().stopped).toBe(true);
      const second = one.text(text);
      expect(second.effects).toEqual([]);
      expect(second.said).toBe('');
    },
  );

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

describe('YES, which carriers take for START', () => {
  test.each(['YES', 'yes.'])(
    '%s of a number that has stopped, and was asked nothing, brings the texts back',
    (text) => {
      for (const start of [ASHAS, NOBODY]) {
        const one = phone(start);
        one.text('stop');
        expect(one.text(text).keys).toEqual(['account.started']);
        expect(one.kept().stopped).toBe(false);
      }
    },
  );

  test.each(['not ploughed 3', 'ploughed'])('an answer where "%s" has made the line ask', (raises) => {
    const asha = phone();
    asha.text('stop');
    asha.text(raises);
    asha.text('YES');
    expect(asha.kept().stopped).toBe(true);
  });

  test.each(['yes please', 'ok', '1', 'y', 'yes ploughed 1'])('"%s" is no such word', (text) => {
    const asha = phone();
    asha.text('stop');
    asha.text(text);
    expect(asha.kept().stopped).toBe(true);
  });

  test('of a number that takes texts is nothing of the kind', () => {
    expect(
      phone()
        .text('YES')
        .effects.map((effect) => effect.do),
    ).toEqual(['say']);
  });

  test('of a joining number that has stopped agrees to join', () => {
    const one = phone(NOBODY);
    one.text('stop');
    one.text('join orrowe');
    expect(one.text('YES').keys).toEqual(['join.name']);
  });
});

test.each(['END', 'CANCEL'])(
  '%s ends the texts: it neither takes a report back nor answers a question',
  (word) => {
    const asha = phone();
    asha.text('ploughed 1');
    const { reports } = asha.kept();
    asha.text('forget me');
    expect(asha.text(word).effects.map((effect) => effect.do)).toEqual(['stop', 'say']);
    expect(asha.kept()).toMatchObject({ reports, people: ASHAS.people });
  },
);

test.each(['HELP', 'INFO', 'MENU'])('%s is answered with help by a stopped number too', (word) => {
  const asha = phone();
  const { keys } = asha.text(word);
  asha.text('stop');
  expect(asha.text(word).keys).toEqual(keys);
  expect(keys.some((key) => key.startsWith('menu.'))).toBe(true);
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
