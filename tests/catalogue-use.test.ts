/** Every message of the catalogue is said by something, and everything that is said is in the catalogue. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { DEFAULT_RULEBOOK } from '../src/agronomy/rules/default-rulebook.ts';
import { ACTIVITIES } from '../src/agronomy/season.ts';
import type { SumName } from '../src/hear/reading.ts';
import { openCatalogue } from '../src/say/catalogue.ts';
import { readMessages } from '../src/sweeps/read-messages.ts';

const ROOT = resolve(import.meta.dirname, '..');
const json = (path: string): unknown => JSON.parse(readFileSync(join(ROOT, path), 'utf8'));

const catalogue = openCatalogue({
  lang: 'en',
  messages: readMessages(join(ROOT, 'locales/en')),
  calendar: json('locales/en/calendar.json'),
});
const keys = [...catalogue.messages.keys()];
const groups = [...new Set(keys.map((key) => key.split('.')[0] ?? ''))];

/** Source files of the rooms that say something, without their comments. */
const sources = ['talk', 'web', 'sweeps'].flatMap((room) =>
  readdirSync(join(ROOT, 'src', room), { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts'))
    .map((file) => ({
      file: `${room}/${file}`,
      code: readFileSync(join(ROOT, 'src', room, file), 'utf8').replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, ''),
    })),
);

/** Beginnings of keys that are put together; all that begins so counts as said, but for choices, which are written out as well. */
const PREFIXES = [
  'activity.',
  'caution.',
  'check.plough-depth-',
  'choice.',
  'cost.',
  'delivery.',
  'delivery.why-',
  'do.',
  'done.',
  'join.with.',
  'lapse.',
  'moment.',
  'sum.no-',
  'sum.phases-',
  'sum.work-',
  'tip.',
  'trouble.',
  'unclear.',
  'why.',
  'why.sum-',
  'word.',
] as const;

/** Written out in full somewhere: 'ask.rest'. */
const written = sources.flatMap(({ file, code }) =>
  [...code.matchAll(/'([a-z]+(?:-[a-z]+)*\.[a-z-]+)'/g)].flatMap(([, key = '']) =>
    groups.includes(key.split('.')[0] ?? '') ? [{ file, key }] : [],
  ),
);

/** Put together somewhere: `done.${activity}` gives "done.". */
const begun = sources.flatMap(({ file, code }) =>
  [...code.matchAll(/`([a-z]+(?:-[a-z]+)*\.(?:[a-z-]+\.)*[a-z-]*)\$\{[^}]*\}`/g)].map(([, prefix = '']) => ({
    file,
    prefix,
  })),
);

/** Database columns that look like keys. */
const COLUMNS: readonly string[] = ['plots.id', 'plots.owner'];

describe('keys in the source', () => {
  test('are found', () => {
    expect(written.length).toBeGreaterThan(100);
    expect(begun.length).toBeGreaterThan(8);
  });

  test('are all in the catalogue', () => {
    const lacking = written.filter(({ key }) => !keys.includes(key) && !COLUMNS.includes(key));
    expect(lacking).toEqual([]);
  });

  test('that are put together begin as listed, and each listed beginning is used', () => {
    const found = new Set(begun.map(({ prefix }) => prefix));
    expect([...found].sort()).toEqual([...PREFIXES].sort());
  });

  test('that are put together have messages', () => {
    for (const { file, prefix } of begun)
      expect(keys.filter((key) => key.startsWith(prefix)).length, `${file}: ${prefix}`).toBeGreaterThan(1);
  });
});

/** Sums that can be asked why; rain is asked of the plan. */
const SUM_NAMES: readonly SumName[] = [
  'level',
  'seed',
  'germination',
  'nutrients',
  'water',
  'work',
  'phases',
];

/** Sums that have more than one reason. */
const VARIANTS = ['sum-nutrients-advice', 'sum-nutrients-plain', 'sum-water-month', 'sum-water-depth'];

/** Messages that wait to be said; one that is said, or is gone, must leave this list. */
const WAITING = ['account.reminders-off'];

test('every message is said by something, but for those that wait', () => {
  const said = new Set(written.map(({ key }) => key));
  const whole = PREFIXES.filter((prefix) => prefix !== 'choice.');
  const unsaid = keys.filter((key) => !said.has(key) && !whole.some((prefix) => key.startsWith(prefix)));
  expect(unsaid.sort()).toEqual([...WAITING].sort());
});

const below = (group: string) =>
  keys.filter((key) => key.startsWith(`${group}.`)).map((key) => key.slice(group.length + 1));

describe('messages with a counterpart in the rulebook', () => {
  test.each(['activity', 'do', 'done', 'word'])('%s names every activity and nothing else', (group) => {
    const rainFed = group === 'do' ? ['soak-rain', 'flood-rain'] : [];
    expect(new Set(below(group))).toEqual(new Set<string>([...ACTIVITIES, ...rainFed]));
  });

  test('every rule has its reason', () => {
    const rules = [...new Set(DEFAULT_RULEBOOK.rules.map(({ name }) => name))];
    expect(rules.length).toBeGreaterThan(10);
    expect(rules.filter((name) => !below('why').includes(name))).toEqual([]);
  });

  test('every reason has its rule, or is one of the frame’s', () => {
    const { rules: all, rainGates } = DEFAULT_RULEBOOK;
    const rules: readonly string[] = [...all.map(({ name }) => name), ...rainGates.map(({ rule }) => rule)];
    const said = ['reason', 'bare', 'nothing', 'since', 'begun', 'then'];
    const calendar = [
      'today',
      'block-water',
      'water-turn',
      'team-visit',
      'target',
      'no-water',
      'no-machine',
      'flooded-out',
      'local-harvest',
    ];
    const sums = SUM_NAMES.map((name) => `sum-${name}`);
    const framed = [...said, ...sums, ...VARIANTS, ...calendar, 'rest-day', 'plough-depth', 'level-range'];
    expect(below('why').filter((name) => !rules.includes(name) && !framed.includes(name))).toEqual([]);
  });

  test('every cost has its words', () => {
    const costs = DEFAULT_RULEBOOK.rules.flatMap(({ costLo, costHi }) =>
      [costLo, costHi].flatMap((cost) => (cost ? [cost.name] : [])),
    );
    expect(costs.length).toBeGreaterThan(10);
    expect(costs.filter((name) => !below('cost').includes(name))).toEqual([]);
  });

  test('every activity with a tip is an activity', () => {
    const names: readonly string[] = ACTIVITIES;
    expect(below('tip').filter((name) => !names.includes(name))).toEqual([]);
  });
});
