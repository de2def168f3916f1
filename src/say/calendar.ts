/** How one language writes days, numbers and lists: the data of `locales/<lang>/calendar.json`. Knows no message. */
import { z } from 'zod';
import { type Day, dayParts } from '../plan/day.ts';
import { gsmSeptets } from './gsm.ts';

const word = z.string().trim().min(1);
const plain = z.string().refine((text) => gsmSeptets(text) !== null, 'is outside the GSM 7-bit alphabet');

/** Shape of the file; unknown fields are refused, so a slip of the pen shows. */
export const calendarShape = z.strictObject({
  /** The language's name for itself. */
  language: word,
  /** True until a native speaker has read the texts. */
  draft: z.boolean(),
  /** `gsm7`: every text stays in the GSM 7-bit alphabet; `ucs2`: the script needs 16-bit units. */
  alphabet: z.enum(['gsm7', 'ucs2']),
  /** Monday first. */
  weekdays: z.array(word).length(7),
  months: z.array(word).length(12),
  day: z
    .string()
    .refine(
      (text) => text.includes('{day}') && text.includes('{month}'),
      'needs {day} and {month}; {weekday} is usual',
    ),
  list: z.strictObject({ comma: z.string().min(1), and: z.string().min(1) }),
  decimal: z.enum(['.', ',', '٫']),
  /** Words that announce what the reader can text: "Send". What follows them in capitals (or in quotes) is read back in the sheet. */
  sendWords: z.array(word).min(1),
  /** A language whose plural rules serve, where Intl has none for this one. */
  pluralsLike: word.optional(),
  /** Plain spellings of this language's letters, before the general table. */
  plainLetters: z.record(z.string(), plain).optional(),
});

export type Calendar = z.infer<typeof calendarShape>;

/** A day in the language's short form. `dayText(20886, english)` is "Wed 10 Mar": no year, texts are about this season. */
export function dayText(day: Day, calendar: Calendar): string {
  const { weekday, dayOfMonth, month } = dayParts(day);
  return calendar.day
    .replace('{weekday}', calendar.weekdays[weekday - 1] ?? '')
    .replace('{day}', String(dayOfMonth))
    .replace('{month}', calendar.months[month - 1] ?? '');
}

/** A number without grouping: from 10 on with at most one decimal, from 0.1 two, else three. `numberText(12.34, french)` is "12,3". */
export function numberText(value: number, calendar: Calendar): string {
  const size = Math.abs(value);
  const decimals = size >= 10 ? 1 : size >= 0.1 ? 2 : 3;
  const fixed = value.toFixed(decimals).replace(/\.?0+$/, '');
  return (fixed === '-0' ? '0' : fixed).replace('.', calendar.decimal);
}

/** Things joined as the language joins them. `listText(['1', '2', '5'], english)` is "1, 2 and 5". */
export function listText(things: readonly string[], calendar: Calendar): string {
  const last = things.at(-1) ?? '';
  const others = things.slice(0, -1);
  return others.length === 0 ? last : others.join(calendar.list.comma) + calendar.list.and + last;
}
