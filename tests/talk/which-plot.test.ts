import { describe, expect, test } from 'vitest';
import { ASHAS, phone, plotOf } from '../support/small-phone.ts';

describe('a report that names no plot', () => {
  test('is asked back and records nothing', () => {
    const came = phone().text('ploughed');
    expect(came).toMatchObject({ keys: ['ask.which-plot'], recorded: [] });
    expect(came.said).toContain('1, 2 and 3');
  });

  test.each([
    ['3', ['3']],
    ['plot 3', ['3']],
    ['u3', ['3']],
    ['1 and 2', ['1', '2']],
    ['all', ['1', '2', '3']],
  ])('the answer "%s" records it on those plots only', (answer, plots) => {
    const asha = phone();
    asha.text('ploughed yesterday, 12 cm');
    const { recorded } = asha.text(answer);
    expect(recorded).toEqual(
      plots.map((number) => ({
        seasonId: `s${number}`,
        activity: 'plough',
        stage: 'finished',
        on: asha.today() - 1,
        measures: { depthCm: 12 },
      })),
    );
  });

  test('a plot that is not there is asked again, and the right one still counts', () => {
    const asha = phone();
    asha.text('ploughed');
    expect(asha.text('9')).toMatchObject({ keys: ['plots.unknown'], recorded: [] });
    asha.text('2');
    expect(asha.standing('2')).toEqual(['plough 2027-03-10']);
  });

  test('a new text drops the question and records only what it says', () => {
    const asha = phone();
    asha.text('ploughed');
    asha.text('cleared 2');
    expect(asha.standing('2')).toEqual(['clear 2027-03-10']);
    expect(asha.text('3').recorded).toEqual([]);
    expect(asha.standing('3')).toEqual([]);
  });

  test('is about the only plot of a phone with one', () => {
    const one = phone({ ...ASHAS, plots: [plotOf('1')] });
    expect(one.text('ploughed').recorded).toMatchObject([{ seasonId: 's1', activity: 'plough' }]);
  });

  test('on a phone without plots the officer is named', () => {
    const none = phone({ ...ASHAS, plots: [] });
    expect(none.text('ploughed')).toMatchObject({ keys: ['plots.none'], recorded: [] });
  });
});

test.each(['ploughed plot 7', 'ploughed 7', 'ploughed B-1', 'not ploughed 7', 'will plough 7', 'dates 7'])(
  '"%s" says that there is no such plot and records nothing',
  (text) => {
    const came = phone().text(text);
    expect(came).toMatchObject({ keys: ['plots.unknown'], recorded: [] });
    expect(came.said).toContain('1, 2 and 3');
  },
);

test.each(['ploughed U-1', 'ploughed u1', 'PLOUGHED PLOT U1', 'ploughed plot 01', 'ploughed plot1'])(
  '"%s" is about plot 1',
  (text) => {
    expect(phone().text(text).recorded).toMatchObject([{ seasonId: 's1', activity: 'plough' }]);
  },
);

test('a question about dates that names no plot is asked back, and answered for the plot', () => {
  const asha = phone();
  expect(asha.text('dates').keys).toEqual(['ask.which-plot-ask']);
  expect(asha.text('2')).toMatchObject({ keys: ['dates.plot'], recorded: [] });
});
