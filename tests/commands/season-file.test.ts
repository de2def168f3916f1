import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readSeasonScript } from '../../src/commands/season-file.ts';

const SCRIPT = readFileSync(new URL('../../scripts/demo/season.yaml', import.meta.url), 'utf8');
const SCHEME = readFileSync(new URL('../../scripts/demo/orrowe-valley.yaml', import.meta.url), 'utf8');

test('every grower of the script is in the demo scheme and has words for each step of the work', () => {
  const { growers, words } = readSeasonScript(SCRIPT);
  for (const [name, { says }] of Object.entries(growers)) {
    expect(SCHEME, name).toContain(`id: ${name},`);
    expect(Object.keys(words[says] ?? {}).length, says).toBeGreaterThanOrEqual(15);
  }
});

test('incidents use only numbers that are kept for fiction, within the season', () => {
  const { incidents, days } = readSeasonScript(SCRIPT);
  for (const { phone, day } of incidents) {
    expect(phone).toMatch(/^\+447700900\d{3}$/);
    expect(day).toBeLessThan(days);
  }
});

test.each([
  ['start: "2027-02-20"', 'start: "2027-02-30"'],
  ['days: 165', 'days: 0'],
  ['says: plain }', 'says: plain, mood: bad }'],
  ['clear: Cleared', 'shout: Cleared'],
  ['at: "08:30"', 'at: morning'],
])('the script with %s as %s is refused', (from, to) => {
  expect(SCRIPT).toContain(from);
  expect(() => readSeasonScript(SCRIPT.replace(from, to))).toThrow();
});
