import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { expect, test, vi } from 'vitest';
import { hear } from '../../src/hear/hear.ts';
import { parseDay } from '../../src/plan/day.ts';
import { ENGLISH, LANGUAGES } from './languages.ts';

/** Thousands of texts on a busy machine. */
vi.setConfig({ testTimeout: 60_000 });

const day = fc.integer({ min: 20_000, max: 25_000 });
const date = (n: number) => Temporal.PlainDate.from('1970-01-01').add({ days: n });
const readOn = (text: string, today: number) => {
  const [reading] = hear(text, ENGLISH.lexicon, today).readings;
  return reading?.kind === 'report' || reading?.kind === 'intend' ? reading.on : undefined;
};

test('a date with its year, as Intl writes it, is that day', () => {
  const long = new Intl.DateTimeFormat('en-GB', { dateStyle: 'long', timeZone: 'UTC' });
  const short = new Intl.DateTimeFormat('en-GB', { dateStyle: 'short', timeZone: 'UTC' });
  const medium = new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeZone: 'UTC' });
  fc.assert(
    fc.property(day, fc.integer({ min: 0, max: 200 }), (today, ago) => {
      const then = date(today - ago);
      const instant = new Date(`${then.toString()}T00:00:00Z`);
      for (const format of [long, short, medium]) {
        expect(readOn(`ploughed plot 3 on ${format.format(instant)}`, today)).toBe(then.toString());
      }
    }),
  );
});

test('work of more than 200 days ago is of no crop that stands: the day is asked', () => {
  fc.assert(
    fc.property(day, fc.integer({ min: 201, max: 4000 }), (today, ago) => {
      const then = date(today - ago).toString();
      expect(hear(`ploughed plot 3 on ${then}`, ENGLISH.lexicon, today).unclear?.why).toBe('which-day');
    }),
  );
});

test('"N days ago" and "in N days" count days', () => {
  fc.assert(
    fc.property(day, fc.integer({ min: 1, max: 60 }), (today, n) => {
      expect(readOn(`ploughed plot 3 ${n} days ago`, today)).toBe(date(today - n).toString());
      expect(readOn(`will plough plot 3 in ${n} days`, today)).toBe(date(today + n).toString());
    }),
  );
});

test('a weekday is the last one past for a report and the next one for a plan', () => {
  fc.assert(
    fc.property(day, fc.integer({ min: 0, max: 6 }), (today, away) => {
      const past = date(today - away);
      const coming = date(today + away);
      const name = (one: Temporal.PlainDate) => one.toLocaleString('en-GB', { weekday: 'long' });
      expect(readOn(`ploughed plot 3 on ${name(past)}`, today)).toBe(past.toString());
      expect(readOn(`will plough plot 3 on ${name(coming)}`, today)).toBe(coming.toString());
    }),
  );
});

test('a day and month that no year has is never rolled over', () => {
  fc.assert(
    fc.property(
      day,
      fc.constantFrom('30/2', '31/4', '31/6', '31/9', '31/11', '32/1', '0/5', '5/13', '5/0'),
      (today, said) => {
        const heard = hear(`ploughed plot 3 on ${said}`, ENGLISH.lexicon, today);
        expect(heard).toMatchObject({ readings: [], unclear: { why: 'impossible-date', said } });
      },
    ),
  );
});

test('no report is dated after today', () => {
  const forms = fc.constantFrom(
    '5/{m}',
    '{d} may',
    'may {d}',
    'on the {d}th',
    '{d}.{m}.27',
    'friday',
    'next {m} days',
    '{d}/{m}',
  );
  fc.assert(
    fc.property(day, forms, fc.nat(40), fc.nat(14), (today, form, d, m) => {
      const said = form.replace('{d}', String(d)).replace('{m}', String(m));
      for (const reading of hear(`ploughed plot 3 ${said}`, ENGLISH.lexicon, today).readings) {
        if (reading.kind === 'report' && reading.on !== null)
          expect(parseDay(reading.on)!).toBeLessThanOrEqual(today);
      }
    }),
  );
});

for (const { lang, list } of LANGUAGES) {
  test(`weekdays and months of ${lang} hold the names that Intl gives`, () => {
    const plain = (name: string) =>
      name
        .toLowerCase()
        .normalize('NFD')
        .replace(/[\u0300-\u036f]|\.$/g, '')
        .normalize('NFC');
    for (let i = 0; i < 7; i++) {
      const name = Temporal.PlainDate.from('2027-03-01')
        .add({ days: i })
        .toLocaleString(lang, { weekday: 'long' });
      expect(list.dates.weekdays[i]!.map(plain)).toContain(plain(name));
    }
    for (let month = 1; month <= 12; month++) {
      const name = Temporal.PlainDate.from({ year: 2027, month, day: 1 }).toLocaleString(lang, {
        month: 'long',
      });
      expect(list.dates.months[month - 1]!.map(plain)).toContain(plain(name));
    }
  });
}
