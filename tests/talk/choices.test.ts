import { describe, expect, test } from 'vitest';

import { NO_MEMORY, QUESTION_MS, STATE_VERSION, type TalkState } from '../../src/talk/state.ts';
import { step } from '../../src/talk/step.ts';
import { day } from '../support/seasons.ts';
import { ASHAS, phone, textEvent, worldOn } from '../support/small-phone.ts';

/** Asha is asked whether she ploughed plot 1 again on the 14th. */
function askedAgain() {
  const asha = phone();
  asha.text('ploughed 1');
  asha.on('2027-03-14');
  expect(asha.text('ploughed 1').keys[0]).toBe('ask.done-again');
  return asha;
}

describe('a numbered question', () => {
  test.each([
    ['1', ['plough 2027-03-10']],
    ['yes', ['plough 2027-03-10']],
    ['2', ['plough 2027-03-10', 'plough 2027-03-14']],
    ['no', ['plough 2027-03-10', 'plough 2027-03-14']],
    ['3', ['plough 2027-03-10', 'plough 2027-03-14']],
  ])('"%s" does what that option says', (answer, standing) => {
    const asha = askedAgain();
    asha.text(answer);
    expect(asha.standing('1')).toEqual(standing);
    expect(asha.kept().state?.standing.at).toBe('idle');
  });

  test('a corrected day stands in for the wrong one, until UNDO', () => {
    const asha = askedAgain();
    asha.text('3');
    expect(asha.text('plots').said).toContain('Plot 1: 0.4 ha, ploughing was last, Sun 14 Mar.');
    asha.text('undo');
    expect(asha.text('plots').said).toContain('Plot 1: 0.4 ha, ploughing was last, Wed 10 Mar.');
  });

  test.each(['4', '9', '12'])('"%s" is not among the options: nothing happens, it stays open', (answer) => {
    const asha = askedAgain();
    expect(asha.text(answer)).toMatchObject({ keys: ['choice.not-among'], recorded: [] });
    asha.text('2');
    expect(asha.standing('1')).toEqual(['plough 2027-03-10', 'plough 2027-03-14']);
  });

  test('a new report drops the question and records only itself', () => {
    const asha = askedAgain();
    expect(asha.text('cleared 2').recorded).toMatchObject([{ seasonId: 's2', activity: 'clear' }]);
    expect(asha.text('1')).toMatchObject({ keys: ['choice.no-question'], recorded: [] });
    expect(asha.standing('1')).toEqual(['plough 2027-03-10']);
  });

  test.each(['next', 'good morning to you all', '', 'MENU'])('"%s" drops the question, too', (text) => {
    const asha = askedAgain();
    asha.text(text);
    expect(asha.text('1').keys).toEqual(['choice.no-question']);
    expect(asha.standing('1')).toEqual(['plough 2027-03-10']);
  });

  test.each(['1', 'no', '7'])('"%s" without a question says so and records nothing', (text) => {
    expect(phone().text(text)).toMatchObject({ keys: ['choice.no-question'], recorded: [] });
  });

  test('a yes without a question may answer a reminder: it records nothing and says what to text', () => {
    expect(phone().text('yes')).toMatchObject({ keys: ['choice.say-what'], recorded: [] });
  });
});

describe('a stored question', () => {
  const today = day('2027-03-10');
  const world = worldOn(ASHAS, today);
  const report = { seasonId: 's1', activity: 'plough', stage: 'finished', on: today, measures: {} } as const;
  const open: TalkState = {
    v: STATE_VERSION,
    expiresMs: world.nowMs + 1,
    standing: { at: 'choose', options: [{ do: 'record', reports: [report] }] },
    ...NO_MEMORY,
  };
  const recordedFrom = (state: TalkState) =>
    step(state, textEvent('1', today), world).effects.filter((effect) => effect.do === 'record');

  test('is followed to its last millisecond', () => {
    expect(recordedFrom(open)).toEqual([{ do: 'record', report }]);
  });

  test('is ignored once it has expired', () => {
    expect(recordedFrom({ ...open, expiresMs: world.nowMs })).toEqual([]);
  });

  test.each([STATE_VERSION - 1, STATE_VERSION + 1])('is ignored in version %i', (v) => {
    expect(recordedFrom({ ...open, v })).toEqual([]);
  });

  test('is open for a day', () => {
    const asha = askedAgain();
    const { expiresMs } = asha.kept().state ?? { expiresMs: 0 };
    expect(expiresMs - worldOn(asha.kept(), asha.today()).nowMs).toBe(QUESTION_MS);
    asha.on('2027-03-15');
    expect(asha.text('1').keys).toEqual(['choice.no-question']);
    expect(asha.standing('1')).toEqual(['plough 2027-03-10']);
  });
});
