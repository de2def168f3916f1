import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type CalendarEvent, calendarText } from '../../src/commands/exports/icalendar.ts';
import { parseDay } from '../../src/plan/day.ts';
import { readCalendar } from '../support/calendar.ts';

const NOW_MS = Date.parse('2027-03-10T09:00:07.250Z');
const day = parseDay('2027-03-10') ?? 0;
const on = (uid: string, summary: string): CalendarEvent => ({ uid, summary, time: { from: day, to: day } });

test('a calendar is read back with its days, instants and words', () => {
  const events: readonly CalendarEvent[] = [
    on('a', 'Puddle: U-1, U-4; "now" \\ or never\nor so'),
    { uid: 'b', summary: 'Water', time: { from: day, to: day + 22 } },
    { uid: 'c', summary: 'Turn', time: { fromMs: NOW_MS, toMs: NOW_MS + 5_400_000 } },
  ];
  const stamp = '2027-03-10T09:00:07Z';
  expect(readCalendar(calendarText('Upper', events, NOW_MS))).toEqual([
    {
      uid: 'a',
      summary: 'Puddle: U-1, U-4; "now" \\ or never\nor so',
      start: '2027-03-10',
      end: '2027-03-11',
      stamp,
    },
    { uid: 'b', summary: 'Water', start: '2027-03-10', end: '2027-04-02', stamp },
    { uid: 'c', summary: 'Turn', start: stamp, end: '2027-03-10T10:30:07Z', stamp },
  ]);
});

test('text is escaped as it must be', () => {
  expect(calendarText('Upper', [on('a', 'a,b;c\\d\r\ne')], NOW_MS)).toContain(
    '\r\nSUMMARY:a\\,b\\;c\\\\d\\ne\r\n',
  );
});

test('lines have at most 75 octets, no sign is cut, and any words come back', () => {
  const letters = fc.string({ unit: fc.constantFrom(...'aé,;\\\n :"উপরের🌾'), maxLength: 200 });
  const words = fc.oneof(letters, fc.string({ unit: 'grapheme', maxLength: 80 }));
  fc.assert(
    fc.property(words, (summary) => {
      const text = calendarText(summary, [on('a', summary)], NOW_MS);
      const lines = text.split('\r\n');
      expect(lines.pop()).toBe('');
      for (const line of lines) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
      expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
      expect(Buffer.from(text).toString()).toBe(text);
      expect(readCalendar(text)[0]?.summary ?? '').toBe(summary);
    }),
    { numRuns: 500 },
  );
});

test('a long line is folded as late as it can be', () => {
  const text = calendarText('Upper', [on('a', 'উ'.repeat(100))], NOW_MS);
  const [first = '', second = ''] = text.slice(text.indexOf('SUMMARY:')).split('\r\n');
  expect([first.length, second]).toEqual([8 + 22, ` ${'উ'.repeat(24)}`]);
});
