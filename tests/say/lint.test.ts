import { describe, expect, test } from 'vitest';
import { lintCatalogue, lintTexts } from '../../src/say/lint.ts';
import { isKept, phrasesIn } from '../../src/say/phrases.ts';
import { bengali, ENGLISH_MESSAGES, english, FRENCH_MESSAGES, french } from './fixtures.ts';

describe('a catalogue beside its source', () => {
  test('has nothing to complain of when it says the same', () => {
    expect(lintCatalogue(english(), english())).toEqual([]);
    expect(lintCatalogue(french(), english())).toEqual([]);
  });

  test.each<[string, object, string[]]>([
    ['a key too many', { extra: 'Bonjour.' }, ['extra: not in en']],
    ['a placeholder lost', { depth: 'Profondeur.' }, ['depth: without depthCm']],
    ['a placeholder renamed', { lots: 'Parcelles {{lots}}.' }, ['lots: without plots', 'lots: unknown lots']],
    [
      'a placeholder lost in one plural form',
      { waiting_many: '{{count}} de parcelles.' },
      ['waiting many: without name'],
    ],
    [
      'a form this language lacks',
      { alone_few: '{{count}} parcelles' },
      ['alone: this language has no _few'],
    ],
    ['both kinds of form', { alone: '{{count}}' }, ['alone: both with and without plural forms']],
  ])('complains of %s', (_, change, complaints) => {
    expect(lintCatalogue(french({ ...FRENCH_MESSAGES, ...change }), english())).toEqual(complaints);
  });

  test('complains of a missing key and a missing plural form', () => {
    const { depth: _depth, alone_many: _many, ...rest } = FRENCH_MESSAGES;
    expect(lintCatalogue(french(rest), english())).toEqual(['depth: lacking', 'alone: lacks _many']);
  });

  test('lets a form leave out its count, and have a text for none', () => {
    const messages = { ...FRENCH_MESSAGES, alone_one: 'Une parcelle.', alone_zero: 'Aucune parcelle.' };
    expect(lintCatalogue(french(messages), english())).toEqual([]);
  });
});

test('a form may leave out what the same form of the source leaves out, no other', () => {
  const source = english({
    work_one: 'About {{count}} day.',
    work_other: 'About {{count}} days: till {{day}}.',
  });
  const work = { work_one: 'Un jour.', work_many: 'Jusque {{day}}.', work_other: '{{count}} jours.' };
  expect(lintCatalogue(french(work), source)).toEqual(['work other: without day']);
});

describe('texts', () => {
  const complaintsOf = (text: string, key = 'reply.x') => lintTexts([{ key, form: '', text }], english());

  test.each<[string, string[]]>([
    ['Plot 3 is ready.', []],
    ['Plot 3 is ready…', ['reply.x: holds …']],
    ['Parcelle ç', ['reply.x: holds ç']],
    ['Two  spaces.', ['reply.x: has a space too many']],
    ['A space at the end. ', ['reply.x: has a space too many']],
    ['Send YES or NO.', ['reply.x: asks for YES, which carriers keep']],
    ['Send MENU. To end it, send "stop".', ['reply.x: asks for stop, which carriers keep']],
    ['Send 1 or 2. It will NOT stop. START again.', []],
    ['a'.repeat(307), ['reply.x: takes 3 parts of 2']],
  ])('%j', (text, complaints) => {
    expect(complaintsOf(text)).toEqual(complaints);
  });

  test('reminders take one part', () => {
    expect(complaintsOf('a'.repeat(161), 'reminder.x')).toEqual(['reminder.x: takes 2 parts of 1']);
    expect(complaintsOf('a'.repeat(161), 'rain.ask')).toEqual(['rain.ask: takes 2 parts of 1']);
    expect(complaintsOf('a'.repeat(161), 'rain.asked')).toEqual([]);
  });

  test('what stands on a screen takes one, in every alphabet', () => {
    expect(complaintsOf('a'.repeat(161), 'screen.x')).toEqual(['screen.x: takes 2 parts of 1']);
    const wide = [{ key: 'screen.x', form: '', text: 'ক'.repeat(71) }];
    expect(lintTexts(wide, bengali(ENGLISH_MESSAGES))).toEqual(['screen.x: takes 2 parts of 1']);
  });

  test('a language of 16-bit units may use its script and one part more', () => {
    const catalogue = bengali(ENGLISH_MESSAGES);
    expect(lintTexts([{ key: 'reminder.x', form: 'one', text: 'ক'.repeat(71) }], catalogue)).toEqual([]);
    expect(lintTexts([{ key: 'reminder.x', form: 'one', text: 'ক'.repeat(135) }], catalogue)).toEqual([
      'reminder.x one: takes 3 parts of 2',
    ]);
  });
});

describe('phrases to send', () => {
  test.each<[string, string[]]>([
    ['Send NEXT.', ['NEXT']],
    ['Send NEXT, DATES or PLOUGHED 3.', ['NEXT', 'DATES', 'PLOUGHED 3']],
    ['Done? Send PLOUGHED 12, 15 CM or NOT PLOUGHED 3.', ['PLOUGHED 12, 15 CM', 'NOT PLOUGHED 3']],
    ['Send LEVEL 5 8 3 12.', ['LEVEL 5 8 3 12']],
    ['Send JOIN ORROWE.', ['JOIN ORROWE']],
    ['Send READY A-17 or DATES PLOT A-17.', ['READY A-17', 'DATES PLOT A-17']],
    ['I read: plot 3 NOT ploughed. Right? Send 1 or 2.', []],
    ['MENU shows what you can do.', []],
    ['Please send MENU!', ['MENU']],
    ['We resend NEXT and sending DATES.', []],
    ['Send A or I.', []],
    ['Send "ploughed plot 3 yesterday".', ['ploughed plot 3 yesterday']],
  ])('%j', (text, phrases) => {
    expect(phrasesIn(text, ['send', 'text'])).toEqual(phrases);
  });

  test('in a script without capitals are those in quotes', () => {
    expect(phrasesIn('লিখুন "চাষ ৩"। তারপর "না"।', ['লিখুন'])).toEqual(['চাষ ৩']);
  });

  test('accented capitals belong to the word', () => {
    expect(phrasesIn('Envoyez SEMÉ 3 ou ÉTÉ.', ['envoyez'])).toEqual(['SEMÉ 3', 'ÉTÉ']);
  });

  test.each([
    ['STOP', true],
    ['stop now', true],
    ['Help', true],
    ['INFO 3', true],
    ['STOPPED 3', false],
    ['ENDED', false],
    ['MENU', false],
  ])('%s is kept by carriers: %s', (phrase, kept) => {
    expect(isKept(phrase)).toBe(kept);
  });
});
