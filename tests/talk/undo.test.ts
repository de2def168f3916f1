import { describe, expect, test } from 'vitest';
import { phone } from '../support/small-phone.ts';

describe('UNDO', () => {
  test('with nothing recorded says so', () => {
    expect(phone().text('undo').keys).toEqual(['undo.nothing']);
  });

  test('takes back all that one text brought, and only that', () => {
    const asha = phone();
    asha.text('cleared 1');
    asha.text('cleared 2, ploughed 3');
    expect(asha.text('undo').keys[0]).toBe('undo.done');
    expect([asha.standing('1'), asha.standing('2'), asha.standing('3')]).toEqual([
      ['clear 2027-03-10'],
      [],
      [],
    ]);
  });

  test('again takes back the text before', () => {
    const asha = phone();
    asha.text('cleared 1');
    asha.text('cleared 2');
    asha.text('undo');
    asha.text('undo');
    expect(asha.kept().reports).toEqual([]);
    expect(asha.text('undo').keys).toEqual(['undo.nothing']);
  });

  test('of work older than a day asks first, and keeps it on 2', () => {
    const asha = phone();
    asha.text('cleared 1');
    asha.on('2027-03-12');
    expect(asha.text('undo').keys[0]).toBe('undo.sure');
    expect(asha.text('2').keys).toEqual(['choice.nothing-noted']);
    expect(asha.standing('1')).toEqual(['clear 2027-03-10']);
    asha.text('undo');
    asha.text('1');
    expect(asha.standing('1')).toEqual([]);
  });

  test('of yesterday’s work does not ask', () => {
    const asha = phone();
    asha.text('cleared 1');
    asha.on('2027-03-11');
    expect(asha.text('undo').keys[0]).toBe('undo.done');
  });

  test('rewrites the reminders of the plot as if nothing had been said', () => {
    const asha = phone();
    const before = asha.text('cleared 1').after.reminders;
    asha.text('ploughed 1');
    expect(asha.kept().reminders).not.toEqual(before);
    asha.text('undo');
    expect(asha.kept().reminders).toEqual(before);
  });
});

describe('UNDO while a question is open', () => {
  test('withdraws the question when its text recorded nothing, and leaves what stood before', () => {
    const asha = phone();
    asha.text('ploughed 1');
    asha.text('ploughed');
    expect(asha.text('undo').keys).toEqual(['choice.nothing-noted']);
    expect(asha.standing('1')).toEqual(['plough 2027-03-10']);
    expect(asha.text('2')).toMatchObject({ keys: ['choice.no-question'], recorded: [] });
  });

  /** Plot 1 was ploughed on the 10th; a text of the 14th is new for plot 2 and doubtful for plot 1. */
  function halfRecorded() {
    const asha = phone();
    asha.text('ploughed 1');
    asha.on('2027-03-14');
    const { recorded, keys } = asha.text('ploughed 1 and 2');
    expect(recorded).toMatchObject([{ seasonId: 's2' }]);
    expect(keys).toContain('ask.done-again');
    return asha;
  }

  test.each([[[]], [['7']], [['7', '8']]])(
    'takes back what its text had recorded beside the question, also after the wrong answers %j',
    (wrong) => {
      const asha = halfRecorded();
      for (const answer of wrong) asha.text(answer);
      expect(asha.text('undo').keys[0]).toBe('undo.done');
      expect([asha.standing('1'), asha.standing('2')]).toEqual([['plough 2027-03-10'], []]);
    },
  );

  test('after the question was answered takes back what the answer recorded, then the rest', () => {
    const asha = halfRecorded();
    asha.text('2');
    expect(asha.standing('1')).toEqual(['plough 2027-03-10', 'plough 2027-03-14']);
    asha.text('undo');
    expect([asha.standing('1'), asha.standing('2')]).toEqual([['plough 2027-03-10'], ['plough 2027-03-14']]);
    asha.text('undo');
    expect([asha.standing('1'), asha.standing('2')]).toEqual([['plough 2027-03-10'], []]);
  });

  test('takes back the report that raised a question about old seedlings', () => {
    const dembe = phone(undefined, '2027-03-02');
    dembe.text('seed soaked 1');
    dembe.on('2027-03-04');
    dembe.text('nursery sown 1');
    dembe.on('2027-03-24');
    expect(dembe.text('ploughed 1').keys).toContain('conflict.old-seedlings');
    dembe.text('7');
    expect(dembe.text('undo').keys[0]).toBe('undo.done');
    expect(dembe.standing('1')).toEqual(['pregerminate 2027-03-02', 'sow-nursery 2027-03-04']);
  });
});
