import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { gsmSeptets } from '../../src/say/gsm.ts';
import { PLAIN } from '../../src/say/plain-letters.ts';
import { tidyText, toGsm } from '../../src/say/to-gsm.ts';
import { anyText } from './any-text.ts';

describe('toGsm', () => {
  test.each([
    ['Plot 3', 'Plot 3'],
    ['l’eau “douce” – déjà…', 'l\'eau "douce" - déjà...'],
    ['1\u00a0000\u202fkg — fin', '1 000 kg - fin'],
    ['«Façade»', '"Facade"'],
    ['rizière prête, côté ÀÈÊ', 'rizière prete, coté AEE'],
    ['ɓarna ɗaya ƙasa ƴaƴa', 'barna daya kasa yaya'],
    ['Ɓ Ɗ Ƙ Ƴ', 'B D K Y'],
    ['sɛnɛ kɔrɔ ɲɔ ŋana', 'sene koro nyo ngana'],
    ['ɛ̀ ɔ́', 'e o'],
    ['œuf Łódź đất ñandú Øre', 'oeuf Lodz dat ñandu Øre'],
    ['ﬁn ² № Ｂ', 'fin 2 No B'],
    ['1½ ha, 30°', '1 1/2 ha, 30 deg'],
    ['e\u0301te\u0301', 'été'],
    ['n\u0308', 'n'],
    ['line\r\none\ttwo', 'line one two'],
    ['a\u0000b\u001b\u200bc\ufeff', 'abc'],
    ['1\ufe0f\u20e3', '1'],
    ['  much   room  ', 'much room'],
    ['[3] {x} €5 ~', '[3] {x} €5 ~'],
  ])('%j becomes %j', (text, plain) => {
    expect(toGsm(text)).toEqual({ text: plain, lost: [] });
  });

  test('says what it could not do: letters become ?, pictures go', () => {
    expect(toGsm('Ama 😀 水田 😀')).toEqual({ text: 'Ama ??', lost: ['😀', '水', '田'] });
    expect(toGsm('👍🏽')).toEqual({ text: '', lost: ['👍', '🏽'] });
  });

  test('a language spells its own letters its own way', () => {
    expect(toGsm('ŋ ç ɓ', { ŋ: 'n', ç: 'tch' }).text).toBe('n tch b');
  });

  test('a letter named like an object member is only a letter', () => {
    expect(toGsm('constructor ê').text).toBe('constructor e');
  });

  test('any text ends in the alphabet, and twice is as once', () => {
    fc.assert(
      fc.property(anyText(60), (text) => {
        const { text: plain } = toGsm(text);
        expect(gsmSeptets(plain)).not.toBeNull();
        expect(toGsm(plain).text).toBe(plain);
        expect(plain).not.toMatch(/ {2}|^ | $|[\r\n\f]/);
      }),
      { numRuns: 500 },
    );
  });

  test('every plain spelling is in the alphabet, and none replaces a letter that is', () => {
    for (const [char, plain] of PLAIN) {
      expect([char, gsmSeptets(plain)]).not.toEqual([char, null]);
      expect([char, gsmSeptets(char)]).toEqual([char, null]);
    }
  });
});

describe('tidyText', () => {
  test.each([
    ['রোপণ\u0000  করুন', 'রোপণ করুন'],
    ['cafe\u0301', 'café'],
    [' a\n b ', 'a b'],
    ['a \u0007 b', 'a b'],
  ])('%j becomes %j', (text, tidy) => {
    expect(tidyText(text)).toBe(tidy);
  });
});
