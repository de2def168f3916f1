import { describe, expect, test } from 'vitest';
import { parseDay } from '../../src/plan/day.ts';
import { phone } from '../support/small-phone.ts';

/** A nursery sown on 4 March for a plot that is ploughed on 23 March: its seedlings get too old. */
function ploughedLate(plots = '1') {
  const grower = phone(undefined, '2027-03-02');
  grower.text(`seed soaked ${plots}`);
  grower.on('2027-03-04');
  grower.text(`nursery sown ${plots}`);
  grower.on('2027-03-23');
  return { grower, came: grower.text('ploughed 1') };
}

test('the late ploughing is recorded, and the question comes with its ways out', () => {
  const { came } = ploughedLate();
  expect(came.recorded).toMatchObject([{ activity: 'plough' }]);
  expect(came.keys).toEqual([
    'echo.day',
    'echo.taken',
    'conflict.old-seedlings',
    'choice.one',
    'choice.one',
    'choice.send-two',
  ]);
});

describe('a fresh nursery', () => {
  test('gives the old one up and asks for seed', () => {
    const { grower } = ploughedLate();
    const { effects, keys, recorded } = grower.text('1');
    expect(effects).toContainEqual({
      do: 'change-season',
      seasonId: 's1',
      change: { nurseryGivenUpOn: parseDay('2027-03-04') },
    });
    expect(keys[0]).toBe('choice.afresh-noted');
    expect(recorded).toEqual([]);
    expect(grower.text('when is seed soaking for plot 1?').keys).toContain('dates.plot');
  });

  test('seed soaked on the very day counts for it', () => {
    const { grower } = ploughedLate();
    grower.text('1');
    const { keys, said } = grower.text('seed soaked 1');
    expect(keys).toContain('tip.sow-nursery');
    expect(said).toContain('sow the nursery');
    expect(said).not.toContain('soak the seed');
    expect(grower.text('seed soaked 1').keys[0]).toBe('echo.already');
  });

  test('ends the trouble: later reports no longer speak of old seedlings', () => {
    const { grower } = ploughedLate();
    grower.text('1');
    const { keys } = grower.text('flooded 1');
    expect(keys.filter((key) => key.startsWith('conflict.'))).toEqual([]);
  });
});

describe('planting the old ones', () => {
  test('is noted for the season, with more seedlings a hill', () => {
    const { grower, came } = ploughedLate();
    expect(came.said).toMatch(/2 Plant these .+, \d more a hill/);
    const { effects, keys } = grower.text('2');
    expect(effects).toContainEqual({
      do: 'change-season',
      seasonId: 's1',
      change: { oldSeedlingsAccepted: true },
    });
    expect(keys[0]).toBe('choice.older-noted');
  });

  test('is not asked about again, also not with NEXT', () => {
    const { grower } = ploughedLate();
    grower.text('2');
    for (const text of ['flooded 1', 'next 1'])
      expect(grower.text(text).keys.filter((key) => key.startsWith('conflict.'))).toEqual([]);
  });
});

describe('the question', () => {
  test('is put once: later reports say one sentence, and NEXT with the number puts it again', () => {
    const { grower } = ploughedLate();
    const later = grower.text('flooded 1');
    expect(later.keys).toContain('conflict.still');
    expect(later.keys).not.toContain('conflict.old-seedlings');
    expect(grower.text('next 1').keys[0]).toBe('conflict.old-seedlings');
    grower.text('2');
    expect(grower.kept().plots[0]?.season.oldSeedlingsAccepted).toBe(true);
  });

  test('is put for each plot on its own', () => {
    const { grower } = ploughedLate('1 and 2');
    const { keys, said } = grower.text('ploughed 2');
    expect(keys).toContain('conflict.old-seedlings');
    expect(said).toContain("Plot 2 can't be planted");
  });

  test('does not come up while the seedlings are young enough', () => {
    const grower = phone(undefined, '2027-03-10');
    grower.text('ploughed 1');
    grower.on('2027-03-12');
    grower.text('seed soaked 1');
    grower.on('2027-03-14');
    const { keys } = grower.text('nursery sown 1');
    expect(keys.filter((key) => key.startsWith('conflict.'))).toEqual([]);
  });
});
