/** The agents' season as a file: rewritten with UPDATE=1, and read by a person before it is kept. */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, test } from 'vitest';
import { playAgentSeason } from '../../src/commands/agent-season.ts';
import { measure } from '../../src/say/parts.ts';

const KEPT = fileURLToPath(new URL('agent-season.txt', import.meta.url));
const season: string[] = [];

/** Rows of one mark, as name and text. */
const rows = (mark: string) =>
  season.flatMap((row) => {
    const found = /^[\d: ]{5} (.*?) +([><*]) (.*)$/.exec(row);
    return found?.[2] === mark ? [{ name: found[1]?.trim() ?? '', text: found[3] ?? '' }] : [];
  });

beforeAll(async () => {
  await playAgentSeason((row) => season.push(...row.split('\n')));
  if (process.env['UPDATE']) writeFileSync(KEPT, `${season.join('\n')}\n`);
}, 180_000);

describe('the agents’ season', () => {
  test('reads as it is kept', () => {
    expect(`${season.join('\n')}\n`).toBe(readFileSync(KEPT, 'utf8'));
  });

  test('has no fault and answers every text', () => {
    expect(season.filter((row) => row.startsWith('FAULT'))).toEqual([]);
    expect(rows('<').filter(({ text }) => text === '(no answer)' || /went wrong/.test(text))).toEqual([]);
  });

  test('keeps every answer within three parts, and every text to a grower too', () => {
    const parts = [...rows('<'), ...rows('*')]
      .map(({ text }) => measure(text))
      .filter(({ encoding, parts: count }) => count > (encoding === 'UCS-2' ? 4 : 3));
    expect(parts).toEqual([]);
  });

  test('shows each thing that an agent does', () => {
    const all = season.join('\n');
    for (const shown of [
      /new-growers.csv: 6 growers, 6 plots/,
      /Best day to open Upper/,
      /l\/s too small: \d+ of \d+ plots in a first round/,
      /Wrong code/,
      /Good, it is on its way/,
      /That code is too old/,
      /Only an agent can do that/,
      /Tractor comes on another day/,
      /your water turn has changed/,
      /plots are late in Upper/,
      /phones reached/,
      /in step|days apart/,
      /cleared \d.*ploughed/,
    ])
      expect(all).toMatch(shown);
  });
});
