import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { dayFromParts } from '../../src/plan/day.ts';
import { type Calendar, calendarShape, dayText } from '../../src/say/calendar.ts';
import { gsmSeptets } from '../../src/say/gsm.ts';

const LOCALES = fileURLToPath(new URL('../../locales/', import.meta.url));
const languages = readdirSync(LOCALES).filter((lang) => existsSync(`${LOCALES}${lang}/calendar.json`));

/** Where our names part from Intl's on purpose, as "Intl's: ours"; anything else is a slip. */
const PERMITTED: Readonly<
  Record<string, { readonly intl: string; readonly differ: Readonly<Record<string, string>> }>
> = {
  en: { intl: 'en-GB', differ: { Sept: 'Sep' } },
  // Without full stops, as people write on a phone, and without the circumflex, which the alphabet lacks.
  fr: {
    intl: 'fr',
    differ: {
      'lun.': 'lun',
      'mar.': 'mar',
      'mer.': 'mer',
      'jeu.': 'jeu',
      'ven.': 'ven',
      'sam.': 'sam',
      'dim.': 'dim',
      'janv.': 'janv',
      'févr.': 'févr',
      'avr.': 'avr',
      'juil.': 'juil',
      août: 'aout',
      'sept.': 'sept',
      'oct.': 'oct',
      'nov.': 'nov',
      'déc.': 'déc',
    },
  },
};

function calendarOf(lang: string): Calendar {
  return calendarShape.parse(JSON.parse(readFileSync(`${LOCALES}${lang}/calendar.json`, 'utf8')));
}

/** Names as Intl has them; ours stand in where a difference is permitted. */
function intlNames(lang: string, part: 'weekday' | 'month', dates: readonly number[]): string[] {
  const { intl = lang, differ = {} } = PERMITTED[lang] ?? {};
  const format = new Intl.DateTimeFormat(intl, { [part]: 'short', timeZone: 'UTC', numberingSystem: 'latn' });
  return dates.map((ms) => format.format(ms)).map((name) => differ[name] ?? name);
}

const weekdays = Array.from({ length: 7 }, (_, i) => Date.UTC(2027, 2, 1 + i));
const months = Array.from({ length: 12 }, (_, i) => Date.UTC(2027, i, 1));

test('English is there', () => {
  expect(languages).toContain('en');
});

describe.each(languages)('the calendar of %s', (lang) => {
  const calendar = calendarOf(lang);

  test.runIf(Intl.DateTimeFormat.supportedLocalesOf([lang]).length > 0)('has the names that Intl has', () => {
    expect(calendar.weekdays).toEqual(intlNames(lang, 'weekday', weekdays));
    expect(calendar.months).toEqual(intlNames(lang, 'month', months));
  });

  test('keeps every name apart and, in Latin script, in the GSM alphabet', () => {
    expect(new Set(calendar.weekdays.map((name) => name.toLowerCase())).size).toBe(7);
    expect(new Set(calendar.months.map((name) => name.toLowerCase())).size).toBe(12);
    if (calendar.alphabet === 'ucs2') return;
    const words = [
      ...calendar.weekdays,
      ...calendar.months,
      calendar.list.and,
      calendar.list.comma,
      calendar.day,
    ];
    expect(words.filter((word) => gsmSeptets(word) === null)).toEqual([]);
  });
});

test.each([
  [2027, 3, 9, 'Tue 9 Mar'],
  [2027, 3, 10, 'Wed 10 Mar'],
  [2028, 2, 29, 'Tue 29 Feb'],
  [2026, 12, 31, 'Thu 31 Dec'],
  [1969, 12, 28, 'Sun 28 Dec'],
])('%d-%d-%d is said %s', (year, month, day, text) => {
  expect(dayText(dayFromParts(year, month, day) ?? Number.NaN, calendarOf('en'))).toBe(text);
});

test('every day of five years has the weekday and month that Intl gives it', () => {
  const calendar = calendarOf('en');
  const format = new Intl.DateTimeFormat('en-GB', {
    weekday: 'short',
    day: 'numeric',
    month: 'short',
    timeZone: 'UTC',
  });
  for (let day = 20454; day < 20454 + 5 * 366; day += 1) {
    const intl = format
      .format(day * 86_400_000)
      .replace(',', '')
      .replace('Sept', 'Sep');
    expect(dayText(day, calendar)).toBe(intl);
  }
});
