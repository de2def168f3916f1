import { describe, expect, test } from 'vitest';
import type { Activity } from '../../src/agronomy/season.ts';
import type { Reminder } from '../../src/talk/effect.ts';
import { day } from '../support/seasons.ts';
import { ASHAS, phone, remindOn } from '../support/small-phone.ts';

const due = (on: string, plot: string, activity: Activity, why: Reminder['why']): Reminder => ({
  on: day(on),
  seasonId: `s${plot}`,
  activity,
  why,
});

/** Asha after some texts on 10 March. */
function texted(...texts: readonly string[]) {
  const asha = phone();
  for (const text of texts) asha.text(text);
  return asha;
}

describe('what is due tomorrow', () => {
  const reminder = due('2027-03-12', '1', 'plough', 'tomorrow');

  test('is said the day before, with its figure', () => {
    const asha = texted('soaked 1');
    const came = remindOn(asha.kept(), [reminder], day('2027-03-12'));
    expect(came.keys).toEqual(['reminder.tomorrow']);
    expect(came.said).toMatch(/^Plot 1: plough 10-15 cm deep tomorrow, Sat 13 Mar\.$/);
  });

  test('is not said when it has been done', () => {
    const asha = texted('soaked 1');
    asha.on('2027-03-12');
    asha.text('ploughed 1');
    expect(remindOn(asha.kept(), [reminder], day('2027-03-12')).said).toBe('');
  });

  test('is not said on a day on which the plan has it for another day', () => {
    const asha = texted('soaked 1');
    expect(remindOn(asha.kept(), [reminder], day('2027-03-11')).said).toBe('');
  });

  test('is not said while work before it is due and unheard of', () => {
    const asha = texted('soaked 1');
    const flood = due('2027-03-16', '1', 'flood', 'tomorrow');
    expect(remindOn(asha.kept(), [flood], day('2027-03-16')).said).toBe('');
  });

  test('is not said when the work has begun', () => {
    const asha = texted('soaked 1');
    asha.on('2027-03-12');
    asha.text('started ploughing 1');
    expect(remindOn(asha.kept(), [reminder], day('2027-03-12')).said).toBe('');
  });
});

describe('what is overdue', () => {
  const reminder = due('2027-03-14', '1', 'soak', 'overdue');

  test('is asked with the word to text, and the last day', () => {
    const asha = texted('cleared 1');
    const came = remindOn(asha.kept(), [reminder], day('2027-03-14'));
    expect(came.keys).toEqual(['reminder.overdue']);
    expect(came.said).toMatch(/text SOAKED 1\. If not: .+ by Thu 18 Mar\.$/);
  });

  test('is dropped when it has been done, or later work tells so', () => {
    for (const text of ['soaked 1', 'ploughed 1']) {
      const asha = texted('cleared 1');
      asha.on('2027-03-13');
      asha.text(text);
      expect(remindOn(asha.kept(), [reminder], day('2027-03-14')).said).toBe('');
    }
  });

  test('comes back when the report is taken back', () => {
    const asha = texted('cleared 1', 'soaked 1', 'undo');
    expect(remindOn(asha.kept(), [reminder], day('2027-03-14')).keys).toEqual(['reminder.overdue']);
  });

  test('names a plot once, however many days could not be told', () => {
    const missed = ['2027-03-14', '2027-03-17', '2027-03-20'].map((on) => due(on, '1', 'soak', 'overdue'));
    const asha = texted('cleared 1');
    expect(remindOn(asha.kept(), missed, day('2027-03-20')).said).toMatch(/^Plot 1: .+ text SOAKED 1\. /);
  });
});

describe('a last day', () => {
  const reminder = due('2027-03-17', '1', 'soak', 'closing');

  test('is told on the day before it', () => {
    const asha = texted('cleared 1');
    const came = remindOn(asha.kept(), [reminder], day('2027-03-17'));
    expect(came.said).toBe(
      'Plot 1: last day for soaking is Thu 18 Mar. Later, rats and birds come to the plot that is alone.',
    );
  });

  test('is not told on another day, nor when the work is done', () => {
    const asha = texted('cleared 1');
    expect(remindOn(asha.kept(), [reminder], day('2027-03-16')).said).toBe('');
    asha.text('soaked 1');
    expect(remindOn(asha.kept(), [reminder], day('2027-03-17')).said).toBe('');
  });
});

describe('several plots', () => {
  test('with the same to say share one sentence', () => {
    const asha = texted('soaked 1, 2 and 3');
    const all = ['1', '2', '3'].map((plot) => due('2027-03-12', plot, 'plough', 'tomorrow'));
    expect(remindOn(asha.kept(), all, day('2027-03-12')).said).toMatch(/^Plots 1, 2 and 3: plough [^:]+$/);
  });

  test('with different things to say fit one part, overdue first, and NEXT shows the rest', () => {
    const asha = texted('cleared 1', 'soaked 2', 'ploughed 3');
    const all = [
      due('2027-03-12', '2', 'plough', 'tomorrow'),
      due('2027-03-12', '1', 'soak', 'overdue'),
      due('2027-03-12', '3', 'rough-level', 'overdue'),
    ];
    const came = remindOn(asha.kept(), all, day('2027-03-12'));
    expect(came.keys).toEqual(['reminder.overdue', 'reminder.overdue', 'reminder.tomorrow', 'reminder.all']);
    expect(came.parts).toBe(1);
    expect(came.said).toMatch(/ NEXT shows all\.$/);
  });

  test('one that is done is left out of the sentence', () => {
    const asha = texted('soaked 1 and 2');
    asha.on('2027-03-12');
    asha.text('ploughed 2');
    const both = ['1', '2'].map((plot) => due('2027-03-12', plot, 'plough', 'tomorrow'));
    expect(remindOn(asha.kept(), both, day('2027-03-12')).said).toMatch(/^Plot 1: /);
  });
});

describe('seedlings that will be too old', () => {
  function dembe() {
    const grower = phone(ASHAS, '2027-03-02');
    grower.text('seed soaked 1');
    grower.on('2027-03-04');
    grower.text('nursery sown 1');
    return grower;
  }
  const clear = due('2027-03-20', '1', 'clear', 'overdue');

  test('are told first, beside what is due, with the way to choose', () => {
    const came = remindOn(dembe().kept(), [clear], day('2027-03-20'));
    expect(came.keys[0]).toBe('reminder.question');
    expect(came.said).toMatch(/^Plot 1: seedlings will be \d+ days old .+ Text NEXT 1\./);
    expect(came.parts).toBe(1);
  });

  test('are not told once the grower has chosen', () => {
    const grower = dembe();
    grower.on('2027-03-20');
    grower.text('next 1');
    grower.text('1');
    expect(remindOn(grower.kept(), [clear], day('2027-03-20')).keys).not.toContain('reminder.question');
  });
});

describe('a phone that may not be texted, or has nothing due', () => {
  const reminder = due('2027-03-12', '1', 'plough', 'tomorrow');

  test('a stopped number is told nothing', () => {
    const asha = texted('soaked 1', 'stop');
    const { effects } = remindOn(asha.kept(), [reminder], day('2027-03-12'));
    expect(effects.map((effect) => effect.do)).toEqual(['remind']);
    asha.text('start');
    expect(remindOn(asha.kept(), [reminder], day('2027-03-12')).said).not.toBe('');
  });

  test('reminders of seasons that are not on this phone say nothing', () => {
    expect(remindOn(ASHAS, [{ ...reminder, seasonId: 's9' }], day('2027-03-12')).effects).toEqual([]);
  });
});

test('a reminder rewrites what is to come of the plots it names, from tomorrow on', () => {
  const asha = texted('cleared 1');
  const today = day('2027-03-14');
  const { effects } = remindOn(asha.kept(), [due('2027-03-14', '1', 'soak', 'overdue')], today);
  const rows = effects.flatMap((effect) => (effect.do === 'remind' ? effect.reminders : []));
  expect(rows.length).toBeGreaterThan(0);
  expect(rows.filter(({ on }) => on <= today)).toEqual([]);
});
