import fc from 'fast-check';
import { createInstance } from 'i18next';
import { describe, expect, test } from 'vitest';
import type { Message, Saying, Value } from '../../src/say/message.ts';
import { messageText } from '../../src/say/message-text.ts';
import { measure } from '../../src/say/parts.ts';
import { say } from '../../src/say/say.ts';
import { faultOf } from './fault-of.ts';
import { bengali, ENGLISH_MESSAGES, english, french } from './fixtures.ts';

const line = (text: Value, spare = false) => ({ key: 'say', values: { text }, ...(spare ? { spare } : {}) });
const of = (length: number, letter: string) => letter.repeat(length);

describe('values', () => {
  test.each<[string, Value, string]>([
    ['a name', 'Ama Serwaa', 'Ama Serwaa'],
    ['a curly name', 'N’Golo “Bébé” Ça', 'N\'Golo "Bébé" Ça'],
    ['letters without a place', 'ɓarawo ç ŋ', 'barawo c ng'],
    ['control characters', 'a\u0000b\nc', 'ab c'],
    ['a placeholder as name', '{{plot}} $t(next) $& {x}', '{{plot}} $t(next) $& {x}'],
    ['a whole number', 12000, '12000'],
    ['tens', 120, '120'],
    ['nothing', 0, '0'],
    ['less than nothing', -3.5, '-3.5'],
    ['nearly nothing', -0.0004, '0'],
    ['two decimals', 0.405, '0.41'],
    ['a decimal', 12.34, '12.3'],
    ['a small decimal', 0.4047, '0.4'],
    ['a smaller decimal', 0.075, '0.075'],
    ['rounded up', 9.999, '10'],
    ['a large sum', 123456789.96, '123456790'],
    ['a day', { day: 20886 }, 'Tue 9 Mar'],
    ['the last day of a leap February', { day: 21243 }, 'Tue 29 Feb'],
    ['a list of one', { list: ['3'] }, '3'],
    ['a list of two', { list: ['1', '2'] }, '1 and 2'],
    ['a list of days', { list: [{ day: 20886 }, { day: 20887 }, 'x'] }, 'Tue 9 Mar, Wed 10 Mar and x'],
    ['a message', { key: 'activity.plough' }, 'ploughed'],
    [
      'messages in a list in a message',
      { key: 'lots', values: { plots: { list: [{ key: 'activity.plough' }, 2] } } },
      'Plots ploughed and 2.',
    ],
  ])('%s', (_, value, text) => {
    expect(messageText(line(value), english())).toBe(text);
  });

  test('are written by the language', () => {
    const values: Value[] = [1234.56, 0.25, { day: 20886 }, { list: ['1', '2', '3'] }];
    expect(values.map((value) => messageText(line(value), french()))).toEqual([
      '1234,6',
      '0,25',
      'mar 9 mars',
      '1, 2 et 3',
    ]);
  });

  test('keep their letters in a script outside the alphabet', () => {
    const catalogue = bengali({ say: 'প্লট {{text}}।' });
    expect(say({ sentences: [line('আমা’র\u0000 ç')] }, catalogue)).toEqual({
      text: 'প্লট আমা’র ç।',
      encoding: 'UCS-2',
      units: 13,
      parts: 1,
    });
  });
});

describe('sentences', () => {
  test('are joined by one space, and measured', () => {
    const saying: Saying = {
      sentences: [
        { key: 'done', values: { plot: '3', activity: { key: 'activity.plough' }, day: { day: 20886 } } },
        { key: 'depth', values: { depthCm: 12 } },
      ],
    };
    expect(say(saying, english())).toEqual({
      text: 'Plot 3 ploughed Tue 9 Mar. Depth 12 cm.',
      encoding: 'GSM-7',
      units: 39,
      parts: 1,
    });
  });

  const said = (sentences: Saying['sentences'], parts?: number) => say({ sentences }, english(), parts);

  test('spare ones stay while there is room', () => {
    expect(said([line(of(80, 'a')), line(of(79, 'b'), true)], 1).units).toBe(160);
  });

  test('spare ones go last first, even when an earlier one is longer', () => {
    const { text } = said(
      [line('A'), line(of(100, 'b'), true), line('C'), line(of(70, 'd'), true), line('E')],
      1,
    );
    expect(text).toBe(`A ${of(100, 'b')} C E`);
  });

  test('what is spare until the last goes after all the others, and then as it must', () => {
    const last = { ...line(of(20, 'z')), spare: 'last' as const };
    const [first, long] = [line(of(120, 'a')), line(of(100, 'b'), true)];
    expect(said([first, long, last], 1).text).toBe(`${of(120, 'a')} ${of(20, 'z')}`);
    expect(said([first, last, long], 1).text).toBe(`${of(120, 'a')} ${of(20, 'z')}`);
    expect(said([line(of(150, 'a')), long, last], 1).text).toBe(of(150, 'a'));
    expect(said([first, last], 1).units).toBe(141);
    expect(faultOf(() => said([last])).code).toBe('empty-saying');
  });

  test('as many go as must', () => {
    const { text, parts } = said([line(of(150, 'a')), line(of(20, 'b'), true), line(of(30, 'c'), true)], 1);
    expect([text, parts]).toEqual([of(150, 'a'), 1]);
  });

  test('the others are never touched: a text too long is whole, with its real parts', () => {
    const { text, parts } = said([line(of(170, 'a')), line(of(300, 'b'), true), line(of(170, 'c'))], 1);
    expect([text, parts]).toEqual([`${of(170, 'a')} ${of(170, 'c')}`, 3]);
  });

  test('what is spare stays when leaving it out would save no part', () => {
    expect(said([line(of(170, 'a')), line('b', true)], 1)).toMatchObject({ units: 172, parts: 2 });
  });

  test('the budget is two parts unless another is given', () => {
    expect(said([line(of(306, 'a')), line('b', true)])).toMatchObject({ units: 306, parts: 2 });
    expect(said([line(of(306, 'a')), line('b', true)], 3)).toMatchObject({ units: 308, parts: 3 });
  });

  test('a language of 16-bit units may take one part more', () => {
    const catalogue = bengali({ say: '{{text}}' });
    const saying = { sentences: [line(of(60, 'ক')), line(of(73, 'খ'), true), line(of(10, 'গ'), true)] };
    expect(say(saying, catalogue, 1)).toMatchObject({ units: 134, parts: 2 });
  });

  test('nothing to say is a fault', () => {
    expect(faultOf(() => said([])).code).toBe('empty-saying');
    expect(faultOf(() => said([line('a', true)])).code).toBe('empty-saying');
  });

  test('a spare sentence is checked even when it is left out', () => {
    const sentences = [line(of(160, 'a')), { key: 'depth', spare: true }];
    expect(faultOf(() => said(sentences, 1))).toMatchObject({ code: 'missing-value', key: 'depth' });
  });
});

describe('for any saying', () => {
  const sentence = fc.record({
    text: fc.string({ unit: fc.constantFrom(...'abc €é'), maxLength: 120 }),
    spare: fc.boolean(),
  });
  const sayings = fc
    .array(sentence, { minLength: 1, maxLength: 6 })
    .filter((all) => all.some(({ spare }) => !spare));

  test('spare sentences are left out from the end only, and only when needed', () => {
    fc.assert(
      fc.property(sayings, fc.integer({ min: 1, max: 4 }), (all, budget) => {
        const whole = all.map(({ text, spare }) => ({ text: messageText(line(text), english()), spare }));
        const spares = whole.filter(({ spare }) => spare).length;
        const keeping = (n: number) => {
          let left = n;
          return whole
            .filter(({ spare }) => !spare || left-- > 0)
            .map(({ text }) => text)
            .join(' ');
        };
        const room = Math.max(budget, measure(keeping(0)).parts);
        const most = Array.from({ length: spares + 1 }, (_, i) => spares - i).find(
          (n) => measure(keeping(n)).parts <= room,
        );
        const said = say({ sentences: all.map(({ text, spare }) => line(text, spare)) }, english(), budget);
        expect(said).toEqual({ text: keeping(most ?? 0), ...measure(keeping(most ?? 0)) });
      }),
    );
  });
});

test('plain values come out as i18next itself would put them in', () => {
  const reference = createInstance();
  const resources = { en: { translation: ENGLISH_MESSAGES } };
  void reference.init({ lng: 'en', resources, initAsync: false, interpolation: { escapeValue: false } });
  const words = fc
    .string({ unit: fc.constantFrom(...'abcXYZ 019,.'), minLength: 1 })
    .map((text) => text.trim().replace(/ +/g, ' '));
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 3000 }), words, (count, name) => {
      const message: Message = { key: 'waiting', values: { count, name } };
      expect(messageText(message, english())).toBe(reference.t('waiting', { count, name }));
    }),
  );
});
