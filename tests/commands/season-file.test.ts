import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { incidentText, readSeasonScript, readSeasonTexts } from '../../src/commands/season-file.ts';
import { languagesIn } from '../../src/commands/sheet.ts';

const SCRIPT = readFileSync(new URL('../../scripts/demo/season.yaml', import.meta.url), 'utf8');
const textsIn = (lang: string) =>
  readFileSync(new URL(`../../scripts/demo/texts/${lang}.yaml`, import.meta.url), 'utf8');
const SCHEME = readFileSync(new URL('../../scripts/demo/orrowe-valley.yaml', import.meta.url), 'utf8');

test('every grower of the script is in the demo scheme', () => {
  for (const name of Object.keys(readSeasonScript(SCRIPT).growers))
    expect(SCHEME, name).toContain(`id: ${name},`);
});

describe.each(languagesIn())('the texts in %s', (lang) => {
  const english = readSeasonTexts(textsIn('en'));

  test('are there for all that is texted in English', () => {
    const texts = readSeasonTexts(textsIn(lang));
    for (const part of ['plain', 'hurried', 'started', 'incidents'] as const)
      expect(Object.keys(texts[part]).sort(), part).toEqual(Object.keys(english[part]).sort());
  });

  test('have one for each incident', () => {
    const texts = readSeasonTexts(textsIn(lang));
    for (const incident of readSeasonScript(SCRIPT).incidents)
      expect(incidentText(incident, texts)).not.toBe('');
  });
});

test('English has words for each step of the work in both styles', () => {
  const { plain, hurried } = readSeasonTexts(textsIn('en'));
  expect(Object.keys(plain).length).toBeGreaterThanOrEqual(15);
  expect(Object.keys(hurried)).toEqual(Object.keys(plain));
});

test.each([
  ['clear: Cleared', 'shout: Cleared'],
  ['plot {plots}', 'plot'],
  ['{said} yesterday', 'yesterday'],
  ['rain: rain {mm}', ''],
])('texts with %s as %s are refused', (from, to) => {
  expect(textsIn('en')).toContain(from);
  expect(() => readSeasonTexts(textsIn('en').replace(from, to))).toThrow();
});

test('an incident that the language has no text for stops the season', () => {
  const incident = { day: 1, at: '08:00', phone: '+447700900001', says: 'nothing-of-this-name' };
  expect(() => incidentText(incident, readSeasonTexts(textsIn('en')))).toThrow(/nothing-of-this-name/);
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
  ['says: menu }', 'says: menu, text: MENU }'],
  ['at: "08:30"', 'at: morning'],
])('the script with %s as %s is refused', (from, to) => {
  expect(SCRIPT).toContain(from);
  expect(() => readSeasonScript(SCRIPT.replace(from, to))).toThrow();
});
