import { describe, expect, test } from 'vitest';
import { phone } from '../support/small-phone.ts';

/** Nothing stands and nothing comes to stand. */
const recordsNothing = (text: string) => {
  const asha = phone();
  const came = asha.text(text);
  expect(came.recorded, text).toEqual([]);
  expect(asha.kept().reports, text).toEqual([]);
  return came;
};

describe('what is not done', () => {
  test.each(['not ploughed plot 3', "haven't ploughed 3", 'PLOT 3 NOT PLOUGHED YET'])(
    '"%s" records nothing and asks whether it was read right',
    (text) => {
      expect(recordsNothing(text).keys[0]).toBe('ask.not-done-right');
    },
  );

  test('right: the word to text when it is done', () => {
    const asha = phone();
    asha.text('not ploughed plot 3');
    const came = asha.text('1');
    expect(came).toMatchObject({ keys: ['not-done.agreed'], recorded: [] });
    expect(came.said).toContain('PLOUGHED 3');
  });

  test('wrong: still nothing is recorded, the report is asked for again', () => {
    const asha = phone();
    asha.text('not ploughed plot 3');
    expect(asha.text('no')).toMatchObject({ keys: ['not-done.refused'], recorded: [] });
  });

  test('it stands as done: taking it back is offered, and taken on 1 only', () => {
    const asha = phone();
    asha.text('ploughed 3');
    expect(asha.text('not ploughed 3').keys[0]).toBe('ask.stands');
    expect(asha.text('2').keys).toEqual(['choice.nothing-noted']);
    expect(asha.standing('3')).toEqual(['plough 2027-03-10']);
    asha.text('not ploughed 3');
    expect(asha.text('1').keys[0]).toBe('undo.done');
    expect(asha.standing('3')).toEqual([]);
  });

  test('taking back one kind of work leaves the others of that plot', () => {
    const asha = phone();
    asha.text('cleared 3');
    asha.on('2027-03-13');
    asha.text('ploughed 3');
    asha.text('not ploughed 3');
    asha.text('yes');
    expect(asha.standing('3')).toEqual(['clear 2027-03-10']);
  });
});

describe('what is to come', () => {
  test.each(['will plough 3 tomorrow', 'going to plough plot 3 on friday'])(
    '"%s" records nothing',
    (text) => {
      expect(recordsNothing(text).keys[0]).toBe('intend.noted');
    },
  );

  test('a day past the last one is told with the last one', () => {
    const asha = phone();
    asha.text('ploughed 1');
    expect(asha.text('will flood 1 on 24 march').keys).toContain('intend.late');
  });

  test('a day before the first one is told with the first one', () => {
    const asha = phone();
    asha.text('soaked 1');
    expect(asha.text('will plough 1 tomorrow').keys).toContain('intend.early');
  });
});

describe('questions and orders', () => {
  test.each([
    'when plough plot 3?',
    'next',
    'dates 2',
    'why',
    'plots',
    'menu',
    'shall i plough plot 3?',
    'plough plot 3!',
  ])('"%s" records nothing', (text) => {
    recordsNothing(text);
  });

  test('an order becomes a question of which only the report records', () => {
    const asha = phone();
    const { keys, said } = asha.text('plough plot 3!');
    expect(keys[0]).toBe('ask.two-meanings');
    const report = /(\d) Plot 3 ploughed/.exec(said)?.[1] ?? '';
    asha.text(report);
    expect(asha.standing('3')).toEqual(['plough 2027-03-10']);
  });

  test('a trouble goes to the list with its words and records no work', () => {
    const came = recordsNothing('no water in plot 2');
    expect(came.effects).toContainEqual(
      expect.objectContaining({
        do: 'note-trouble',
        seasonId: 's2',
        what: 'no-water',
        words: 'no water in plot 2',
      }),
    );
  });
});
