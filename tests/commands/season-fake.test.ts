/** The season over a carrier that misbehaves: the same records and the same texts as over the desk, each reaching its phone once. */
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { type FakeRoad, fakeRoad } from '../../src/commands/fake-carrier/fake-road.ts';
import { playSeason } from '../../src/commands/season.ts';
import type { SeasonEnd } from '../../src/commands/season-end.ts';

const script = readFileSync(new URL('../../scripts/demo/season.yaml', import.meta.url), 'utf8');

interface Played {
  readonly rows: readonly string[];
  readonly end: SeasonEnd;
}

async function played(season: string, road?: FakeRoad): Promise<Played> {
  const rows: string[] = [];
  const end = await playSeason({ script: season, ...(road && { road }) }, (row) =>
    rows.push(...row.split('\n')),
  );
  return { rows, end };
}

/** Texts that the line sent of itself, as printed. */
const reminders = (rows: readonly string[]) =>
  rows.flatMap((row) => /^[\d:]{5} .{8} \* (.*)$/.exec(row)?.[1] ?? []);

describe('a season over a carrier that misbehaves', () => {
  let [desk, fake]: Played[] = [];
  let road: FakeRoad | undefined;

  beforeAll(async () => {
    road = await fakeRoad('test');
    desk = await played(script);
    fake = await played(script, road);
  }, 180_000);

  test('ends in the same records as over the desk', () => {
    expect(desk?.end.reports.length).toBeGreaterThan(200);
    expect(fake?.end).toEqual(desk?.end);
  });

  test('reads the same, text by text', () => {
    expect(fake?.rows).toEqual(desk?.rows);
  });

  test('brings every reminder of the desk to its phone, each once', () => {
    const sent = reminders(desk?.rows ?? []);
    const arrived = road?.kept.map(({ body }) => body.replaceAll('\n', ' / ')) ?? [];
    expect(sent.length).toBeGreaterThan(100);
    expect(arrived.toSorted()).toEqual(sent.toSorted());
  });

  test('has its account in order, and more than a hundred misdeeds in it', () => {
    const { rows, faults } = road?.account() ?? { rows: [], faults: ['no account'] };
    expect(faults).toEqual([]);
    const misdeeds = rows.flatMap((row) => /^ +(\d+) {2}/.exec(row)?.[1] ?? []).map(Number);
    expect(misdeeds.reduce((sum, count) => sum + count, 0)).toBeGreaterThan(100);
    for (const kind of [
      / {2}429$/,
      /500 after/,
      /500 before/,
      /reset after/,
      /no answer, text taken/,
      /brought twice$/,
    ])
      expect(
        rows.some((row) => kind.test(row)),
        String(kind),
      ).toBe(true);
  });
});

test('the same seed does the same misdeeds, another seed others', async () => {
  const short = script.replace(/^days: \d+$/m, 'days: 12');
  expect(short).not.toBe(script);
  const accounts = ['one', 'one', 'other'].map(async (seed) => {
    const road = await fakeRoad(seed);
    await played(short, road);
    return road.account().rows;
  });
  const [one, again, other] = await Promise.all(accounts);
  expect(one).toEqual(again);
  expect(one).not.toEqual(other);
}, 120_000);
