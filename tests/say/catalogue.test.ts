import { describe, expect, test } from 'vitest';
import { openCatalogue } from '../../src/say/catalogue.ts';
import { SAY_FAULTS, SayError } from '../../src/say/fault.ts';
import type { Message } from '../../src/say/message.ts';
import { messageText } from '../../src/say/message-text.ts';
import { faultOf } from './fault-of.ts';
import { ENGLISH_CALENDAR, ENGLISH_MESSAGES, english, FRENCH_CALENDAR, french } from './fixtures.ts';

describe('opening', () => {
  test.each<[string, unknown]>([
    ['a list', ['a']],
    ['a number', { done: 3 }],
    ['an empty text', { a: { done: '' } }],
    ['a dot in a name', { 'a.b': 'x' }],
    ['an unknown plural ending', { done_several: 'x' }],
  ])('refuses messages with %s', (_, messages) => {
    expect(faultOf(() => english(messages))).toMatchObject({ code: 'bad-catalogue', key: 'messages' });
  });

  test.each(['{{day, short}}', '{{ }}', 'x}}', '$t(next)', '{{-plot}}'])(
    'refuses the mark %s and names the message',
    (mark) => {
      expect(faultOf(() => english({ a: { b: `See ${mark}` } }))).toMatchObject({
        code: 'bad-catalogue',
        names: ['a.b'],
      });
    },
  );

  test.each<[string, object]>([
    ['six weekdays', { weekdays: ENGLISH_CALENDAR.weekdays.slice(1) }],
    ['a pattern without the day', { day: '{weekday} {month}' }],
    ['an unknown field', { mounths: [] }],
    ['an unknown alphabet', { alphabet: 'ascii' }],
    ['a spelling outside the alphabet', { plainLetters: { ŋ: 'ñ̃' } }],
  ])('refuses a calendar with %s', (_, change) => {
    const calendar = { ...ENGLISH_CALENDAR, ...change };
    expect(faultOf(() => english(ENGLISH_MESSAGES, calendar))).toMatchObject({
      code: 'bad-catalogue',
      key: 'calendar',
    });
  });

  test('lists every mistake of the calendar at once', () => {
    const calendar = { ...ENGLISH_CALENDAR, weekdays: [], months: [], decimal: '' };
    expect(faultOf(() => english(ENGLISH_MESSAGES, calendar)).names).toHaveLength(3);
  });

  test('refuses a language whose plurals Intl would take from the machine', () => {
    const open = (calendar: unknown) => openCatalogue({ lang: 'xx', messages: { a: 'x' }, calendar });
    expect(faultOf(() => open(ENGLISH_CALENDAR)).code).toBe('bad-catalogue');
    expect(open({ ...ENGLISH_CALENDAR, pluralsLike: 'fr' }).plurals.resolvedOptions().locale).toBe('fr');
  });

  test('two languages open at once keep apart', () => {
    const [one, other] = [english(), french()];
    const message: Message = {
      key: 'next',
      values: { activity: { key: 'activity.plough' }, by: { day: 20886 } },
    };
    expect(messageText(message, one)).toBe('Next: ploughed by Tue 9 Mar.');
    expect(messageText(message, other)).toBe('Ensuite : labour avant mar 9 mars.');
  });
});

describe('a message', () => {
  test.each<[Message, string]>([
    [{ key: 'waiting', values: { count: 0, name: 'Ama' } }, '0 plots wait for Ama.'],
    [{ key: 'waiting', values: { count: 1, name: 'Ama' } }, '1 plot waits for Ama.'],
    [{ key: 'waiting', values: { count: 1.5, name: 'Ama' } }, '1.5 plots wait for Ama.'],
    [{ key: 'alone', values: { count: 1 } }, 'One plot.'],
    [{ key: 'alone', values: { count: 2 } }, '2 plots.'],
    [{ key: 'activity.rough-level' }, 'levelled roughly'],
  ])('%j', (message, text) => {
    expect(messageText(message, english())).toBe(text);
  });

  test.each<[number, string]>([
    [0, '0 parcelle.'],
    [1.5, '1,5 parcelle.'],
    [2, '2 parcelles.'],
    [1_000_000, '1000000 de parcelles.'],
  ])('takes the plural of its own language for %d', (count, text) => {
    expect(messageText({ key: 'alone', values: { count } }, french())).toBe(text);
  });

  test('may have a text of its own for none', () => {
    const catalogue = english({ n_zero: 'No plot.', n_one: '{{count}} plot.', n_other: '{{count}} plots.' });
    expect(messageText({ key: 'n', values: { count: 0 } }, catalogue)).toBe('No plot.');
  });

  test.each<[string, Message, object]>([
    ['an unknown key', { key: 'nothing.here' }, { code: 'missing-key', key: 'nothing.here' }],
    ['a branch', { key: 'activity' }, { code: 'missing-key' }],
    ['a plural form as key', { key: 'alone_one', values: { count: 1 } }, { code: 'missing-key' }],
    ['an object member as key', { key: 'constructor' }, { code: 'missing-key' }],
    ['no values', { key: 'depth' }, { code: 'missing-value', names: ['depthCm'] }],
    [
      'one of two values',
      { key: 'waiting', values: { count: 2 } },
      { code: 'missing-value', names: ['name'] },
    ],
    ['no count', { key: 'waiting', values: { name: 'Ama' } }, { code: 'missing-value', names: ['count'] }],
    [
      'a count in words',
      { key: 'alone', values: { count: 'two' } },
      { code: 'missing-value', names: ['count'] },
    ],
    [
      'a value too many',
      { key: 'depth', values: { depthCm: 3, day: '4' } },
      { code: 'unused-value', names: ['day'] },
    ],
    [
      'a count too many',
      { key: 'depth', values: { depthCm: 3, count: 4 } },
      { code: 'unused-value', names: ['count'] },
    ],
    [
      'not a number',
      { key: 'depth', values: { depthCm: Number.NaN } },
      { code: 'bad-value', names: ['depthCm'] },
    ],
    [
      'an endless number',
      { key: 'depth', values: { depthCm: Number.POSITIVE_INFINITY } },
      { code: 'bad-value' },
    ],
    [
      'a day in another age',
      { key: 'say', values: { text: { day: 1e9 } } },
      { code: 'bad-value', names: ['text'] },
    ],
    ['half a day', { key: 'say', values: { text: { day: 1.5 } } }, { code: 'bad-value', names: ['text'] }],
    [
      'an empty list',
      { key: 'lots', values: { plots: { list: [] } } },
      { code: 'bad-value', names: ['plots'] },
    ],
    [
      'a fault inside',
      { key: 'say', values: { text: { list: [{ key: 'depth' }] } } },
      { code: 'missing-value', key: 'depth' },
    ],
  ])('throws on %s', (_, message, fault) => {
    expect(faultOf(() => messageText(message, english()))).toMatchObject(fault);
  });

  test('takes a value that only another plural form uses', () => {
    const catalogue = english({ work_one: '{{count}} day.', work_other: '{{count}} days: till {{day}}.' });
    const work = (count: number): Message => ({ key: 'work', values: { count, day: { day: 20886 } } });
    expect(messageText(work(1), catalogue)).toBe('1 day.');
    expect(messageText(work(2), catalogue)).toBe('2 days: till Tue 9 Mar.');
  });

  test('throws on an explicitly undefined value', () => {
    const message = { key: 'depth', values: { depthCm: undefined } } as unknown as Message;
    expect(faultOf(() => messageText(message, english()))).toMatchObject({ code: 'missing-value' });
  });

  test('throws when the plural form of a count is not written', () => {
    const catalogue = french({ n_one: '{{count}} lot.', n_other: '{{count}} lots.' }, FRENCH_CALENDAR);
    expect(faultOf(() => messageText({ key: 'n', values: { count: 1_000_000 } }, catalogue))).toMatchObject({
      code: 'missing-plural',
      key: 'n',
    });
  });
});

test('a fault says what, where and in which language, and no value', () => {
  const values = { text: 'x', phone: '+447700900123' };
  const fault = faultOf(() => messageText({ key: 'say', values }, english()));
  expect(fault).toBeInstanceOf(SayError);
  expect(fault.message).toBe(`unused-value in "say" (en): ${SAY_FAULTS['unused-value']}: phone`);
});
