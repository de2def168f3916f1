import { describe, expect, test } from 'vitest';
import { hearEnglish, reportsIn } from './languages.ts';

describe('the nearest known work', () => {
  test.each([
    ['plowwgd 3', 'plough'],
    ['hrvvestid plot 3', 'harvest'],
  ])('"%s" is asked about, never recorded', (text, activity) => {
    const heard = hearEnglish(text);
    expect(reportsIn(heard)).toEqual([]);
    expect(heard.unclear).toMatchObject({ why: 'two-meanings', choices: [{ activity, plots: ['3'] }] });
  });

  test.each(['xqzt mbo', 'my cousin says kwaheri', 'pudding for everyone', 'planet earth'])(
    '"%s" is near nothing',
    (text) => expect(hearEnglish(text).unclear?.choices ?? []).toEqual([]),
  );

  test.each(['ploughed plot 3', 'stop', 'mynudo', 'undooo it plz qq'])(
    'a text that is read, or is no work, raises no such question: "%s"',
    (text) => {
      const { unclear } = hearEnglish(text);
      expect(unclear?.why === 'two-meanings' ? unclear.choices : []).toEqual([]);
    },
  );
});
