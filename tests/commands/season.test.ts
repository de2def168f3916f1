/** The simulated season as a file: rewritten with UPDATE=1, and read by a person before it is kept. */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, test } from 'vitest';
import { playSeason } from '../../src/commands/season.ts';
import { measure } from '../../src/say/parts.ts';

const SCRIPT = readFileSync(new URL('../../scripts/demo/season.yaml', import.meta.url), 'utf8');
const KEPT = fileURLToPath(new URL('season.txt', import.meta.url));

let season: readonly string[] = [];

async function played(script: string): Promise<readonly string[]> {
  const rows: string[] = [];
  await playSeason({ script }, (row) => rows.push(...row.split('\n')));
  return rows;
}

/** The rows of one mark, as grower and text. */
function rows(mark: '>' | '<' | '*'): readonly { at: number; name: string; text: string }[] {
  return season.flatMap((row, at) => {
    const found = /^[\d: ]{5} (.{8}) ([><*]) (.*)$/.exec(row);
    return found?.[2] === mark ? [{ at, name: found[1]?.trim() ?? '', text: found[3] ?? '' }] : [];
  });
}

/** What was answered to the first text of this grower that reads so. */
function answerTo(name: string, text: RegExp): string {
  const sent = rows('>').find((row) => row.name === name && text.test(row.text));
  return rows('<').find(({ at }) => at > (sent?.at ?? season.length))?.text ?? '';
}

beforeAll(async () => {
  season = await played(SCRIPT);
  if (process.env['UPDATE']) writeFileSync(KEPT, `${season.join('\n')}\n`);
}, 180_000);

describe('the season', () => {
  test('reads as it is kept', () => {
    expect(`${season.join('\n')}\n`).toBe(readFileSync(KEPT, 'utf8'));
  });

  test('has no fault, and texts in both directions', () => {
    expect(season.filter((row) => row.includes('FAULT'))).toEqual([]);
    expect(rows('>').length).toBeGreaterThan(200);
    expect(rows('<')).toHaveLength(rows('>').length);
    expect(rows('*').length).toBeGreaterThan(100);
  });

  test('keeps reminders to one part and replies to two', () => {
    for (const { text } of rows('*')) expect(measure(text).parts, text).toBe(1);
    for (const { text } of rows('<')) expect(measure(text).parts, text).toBeLessThanOrEqual(2);
  });

  test('reminds each phone at most once a day', () => {
    let today = new Set<string>();
    for (const row of season) {
      if (/^[A-Z][a-z]+day /.test(row)) today = new Set();
      const name = /^[\d:]{5} (.{8}) \* /.exec(row)?.[1]?.trim();
      if (name === undefined) continue;
      expect(today.has(name), row).toBe(false);
      today.add(name);
    }
  });
});

describe('the season shows', () => {
  test('a late plougher warned of old seedlings, with the day of a fresh nursery', () => {
    const warned = rows('*').find(({ name, text }) => name === 'Dembe' && /too old/.test(text));
    expect(warned?.text).toMatch(/seedlings will be \d+ days old/);
    const asked = rows('<').find(({ text }) =>
      /too old.* 1 Sow a fresh nursery \w{3} \d+ \w{3}, plant \w{3} \d+ \w{3}\./.test(text),
    );
    expect(asked).toBeDefined();
  });

  test('a reminder on the day before', () => {
    expect(rows('*').filter(({ text }) => /tomorrow, \w{3} \d+ \w{3}\./.test(text)).length).toBeGreaterThan(
      10,
    );
  });

  test('a "not ploughed" that records nothing', () => {
    expect(answerTo('Bram', /^not ploughed plot 1$/)).toMatch(/NOT done on plot 1\. Nothing is recorded\./);
    expect(answerTo('Bram', /^1$/)).toMatch(/When it is done, text PLOUGHED 1/);
  });

  test('a grower who joins, is reminded, and reports', () => {
    const nala = rows('<').find(({ text }) => /^Welcome, Nala\./.test(text));
    expect(nala).toBeDefined();
    const cleared = rows('>').find(({ text }) => text === 'cleared both plots');
    expect(cleared?.at).toBeGreaterThan(nala?.at ?? season.length);
    expect(rows('*').some(({ name, at }) => ['Nala', '020'].includes(name) && at > (nala?.at ?? 0))).toBe(
      true,
    );
  });

  test('nothing sent to a number that has stopped, until it starts again', () => {
    const [stop, start] = ['STOP', 'START'].map(
      (word) => rows('>').find(({ text }) => text === word)?.at ?? 0,
    );
    const between = rows('*').filter(
      ({ name, at }) => name === 'Juma' && at > (stop ?? 0) && at < (start ?? 0),
    );
    expect([stop, start].every((at) => (at ?? 0) > 0)).toBe(true);
    expect(between).toEqual([]);
    expect(rows('*').some(({ name, at }) => name === 'Juma' && at > (start ?? 0))).toBe(true);
  });

  test('most plots harvested', () => {
    expect(rows('<').filter(({ text }) => /harvested \w{3} \d/.test(text)).length).toBeGreaterThan(8);
  });
});

test('played twice, the season is the same', async () => {
  const short = SCRIPT.replace(/^days: \d+$/m, 'days: 25');
  expect(short).not.toBe(SCRIPT);
  expect(await played(short)).toEqual(await played(short));
}, 120_000);
