import { describe, expect, test } from 'vitest';
import { lines, phone } from '../support/small-phone.ts';

/** Texts in turn, "@2027-03-14" goes to that day; what stands on the plot afterwards. */
function texted(plot: string, ...texts: readonly string[]) {
  const asha = phone();
  const came = texts.flatMap((text) => {
    if (!text.startsWith('@')) return [asha.text(text)];
    asha.on(text.slice(1));
    return [];
  });
  return { asha, last: came.at(-1) ?? asha.text(''), standing: asha.standing(plot) };
}

describe('several in one text', () => {
  test('plots of one report are all recorded and echoed together', () => {
    const { asha, last } = texted('1', 'ploughed 1, 2 and 3 yesterday');
    expect(last.recorded.map(({ seasonId }) => seasonId)).toEqual(['s1', 's2', 's3']);
    expect(last.keys.filter((key) => key.startsWith('echo.'))).toEqual(['echo.day', 'echo.taken']);
    expect(new Set(lines(asha.kept().reports))).toEqual(new Set(['plough 2027-03-09']));
  });

  test('reports of several kinds go to their own plots', () => {
    const { asha } = texted('1', 'cleared plot 2, ploughed 3 yesterday');
    expect([asha.standing('1'), asha.standing('2'), asha.standing('3')]).toMatchObject([
      [],
      [expect.stringMatching(/^clear /)],
      ['plough 2027-03-09'],
    ]);
  });

  test('one unknown plot stops the whole text: what is said to be not recorded is not', () => {
    const { asha, last } = texted('1', 'cleared 3, ploughed 9');
    expect(last.keys).toEqual(['plots.unknown']);
    expect(asha.kept().reports).toEqual([]);
  });

  test('of steps with no day said, only the last can have been today', () => {
    expect(texted('1', 'cleared, soaked and ploughed 1').standing).toEqual([
      'clear ?',
      'soak ?',
      'plough 2027-03-10',
    ]);
  });

  test('a step that stands already is not asked about again beside a later one', () => {
    const { last, standing } = texted('1', 'cleared 1', '@2027-03-13', 'cleared and ploughed 1');
    expect(last.keys.slice(0, 2).sort()).toEqual(['echo.already', 'echo.day']);
    expect(standing).toEqual(['clear 2027-03-10', 'plough 2027-03-13']);
  });
});

describe('what a report tells of earlier work', () => {
  test('puddled without ploughing records the puddling and nothing else', () => {
    expect(texted('1', 'puddled 1').standing).toEqual(['puddle 2027-03-10']);
  });

  test('earlier work told later is recorded with no day', () => {
    expect(texted('1', 'puddled 1', '@2027-03-12', 'cleared 1').standing).toEqual([
      'puddle 2027-03-10',
      'clear ?',
    ]);
  });
});

describe('words that hang on the plot', () => {
  test.each([
    [['flooded 1'], 'soak'],
    [['ploughed 1', 'flooded 1'], 'flood'],
    [['soaked 1', '@2027-03-12', 'ploughed 1', '@2027-03-13', 'watered plot 1'], 'flood'],
    [['ploughed 1', 'levelled 1'], 'rough-level'],
    [['ploughed 1', 'flooded 1', '@2027-03-30', 'puddled 1', '@2027-03-31', 'levelled 1'], 'level'],
  ])('%j ends in %s', (texts, activity) => {
    expect(texted('1', ...texts).last.recorded).toMatchObject([{ activity }]);
  });

  test('each plot of one text has its own meaning', () => {
    const { asha } = texted('1', 'ploughed 1', 'flooded 1 and 2');
    expect([asha.standing('1').at(-1), asha.standing('2').at(-1)]).toEqual([
      'flood 2027-03-10',
      'soak 2027-03-10',
    ]);
  });
});

describe('said once more', () => {
  test.each([['ploughed 1'], ['ploughed 1 today'], ["ploughed 1, don't know when"]])(
    '"%s" on the same day or with no day: known, nothing is recorded',
    (again) => {
      const { last } = texted('1', 'ploughed 1', again);
      expect(last.keys[0]).toBe('echo.already');
      expect(last.recorded).toEqual([]);
    },
  );

  test('of another day is asked: done again, or the same', () => {
    const { asha, last } = texted('1', 'ploughed 1', '@2027-03-12', 'ploughed 1');
    expect(last.keys[0]).toBe('ask.done-again');
    expect(last.recorded).toEqual([]);
    asha.text('1');
    expect(asha.standing('1')).toEqual(['plough 2027-03-10']);
  });

  test('weeding a week later is a round of its own, sooner is asked', () => {
    const planted = ['puddled 1', 'planted 1', '@2027-03-25', 'weeded 1'] as const;
    expect(texted('1', ...planted, '@2027-03-28', 'weeded 1').last.keys[0]).toBe('ask.done-again');
    expect(texted('1', ...planted, '@2027-04-06', 'weeded 1').last.recorded).toMatchObject([
      { activity: 'weed' },
    ]);
  });

  test('begun and finished on one day are both recorded', () => {
    expect(texted('1', 'started ploughing 1', 'ploughed 1').standing).toEqual([
      'plough begun 2027-03-10',
      'plough 2027-03-10',
    ]);
  });
});

describe('out of order', () => {
  test('a day before that of earlier work is asked back and nothing is recorded', () => {
    const { last, standing } = texted('1', 'ploughed 1', 'flooded 1 on 5 march');
    expect(last).toMatchObject({ keys: ['ask.order-back'], recorded: [] });
    expect(standing).toEqual(['plough 2027-03-10']);
  });

  test('ploughed after flooding: again, before that with no day, or nothing', () => {
    const takenBack = ['ploughed 1', 'flooded 1', 'not ploughed 1', '1'] as const;
    const start = [...takenBack, '@2027-03-14', 'ploughed 1'] as const;
    const asked = texted('1', ...start);
    expect(asked.last.keys).toEqual([
      'ask.later-done',
      'choice.one',
      'choice.one',
      'choice.one',
      'choice.send-many',
    ]);
    expect(asked.last.recorded).toEqual([]);
    expect(texted('1', ...start, '1').standing).toEqual(['flood 2027-03-10', 'plough 2027-03-14']);
    expect(texted('1', ...start, '2').standing).toEqual(['flood 2027-03-10', 'plough ?']);
    expect(texted('1', ...start, '3').standing).toEqual(['flood 2027-03-10']);
  });

  test('ploughed again after flooding undoes the flooding in the plan', () => {
    const { asha, last } = texted('1', 'ploughed 1', 'flooded 1', '@2027-03-20', 'ploughed 1', '2');
    expect(last.recorded).toMatchObject([{ activity: 'plough' }]);
    expect(asha.text('dates 1').said).toContain('flooding');
  });

  test('work that is not done twice, said of a day after later work, may only have come before', () => {
    const { asha, last } = texted('1', 'ploughed 1 yesterday', 'cleared 1 today');
    expect(last.keys).toEqual(['ask.later-done', 'choice.one', 'choice.one', 'choice.send-two']);
    asha.text('1');
    expect(asha.standing('1')).toEqual(['plough 2027-03-09', 'clear ?']);
  });

  test('of several doubtful reports one is asked about and the others are said to be not recorded', () => {
    const { last } = texted('1', 'ploughed 1 and 2', '@2027-03-14', 'ploughed 1 and 2');
    expect(last.keys).toContain('ask.rest');
    expect(last.recorded).toEqual([]);
  });
});

test('work done too soon is recorded with its cost', () => {
  const { last } = texted('1', 'ploughed 1', 'flooded 1', '@2027-03-16', 'puddled 1');
  expect(last.recorded).toMatchObject([{ activity: 'puddle' }]);
  expect(last.keys).toContain('lapse.lo');
  expect(last.said).toContain('yellow');
});

test('a recorded text rewrites the reminders of its plots and of no other', () => {
  const { last } = texted('1', 'ploughed 1 and 3');
  const seasons = last.effects.flatMap((effect) => (effect.do === 'remind' ? [effect.seasonId] : []));
  expect(seasons).toEqual(['s1', 's3']);
});

test('a caution is given with the first text about such work and not again', () => {
  const asha = phone({ ...phone().kept(), cautioned: [] });
  const first = asha.text('next');
  expect(first.keys).toContain('caution.heat');
  expect(asha.kept().cautioned).toEqual(['heat']);
  expect(asha.text('next').keys).not.toContain('caution.heat');
});
