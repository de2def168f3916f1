/** The page says what the data say: its tables are read back and held against the rulebook. */
import { describe, expect, test } from 'vitest';
import { frameOf } from '../../src/agronomy/frame.ts';
import type { Bound, Rule, Rulebook, When } from '../../src/agronomy/rulebook.ts';
import { rulebookPage } from '../../src/agronomy/rulebook-page.ts';
import { DEFAULT_RULEBOOK } from '../../src/agronomy/rules/default-rulebook.ts';
import type { Season, Way } from '../../src/agronomy/season.ts';
import { wayTables } from '../../src/agronomy/way-tables.ts';

const book = DEFAULT_RULEBOOK;
const page = rulebookPage(book, (rule) => `because of ${rule}`);
const MARKS: Readonly<Record<string, string>> = {
  published: 'published',
  'second-hand': 'second-hand',
  'common practice': 'common-practice',
  'from memory': 'from-memory',
  judgement: 'judgement',
  "scheme's own": 'scheme',
};
const QUANTITIES: Readonly<Record<string, string>> = {
  'best seedling age': 'seedling-age',
  'longest seedling age': 'seedling-limit',
  'age at which seedlings stand clear': 'standing-clear',
  'panicle initiation to harvest': 'panicle-to-harvest',
  'days to harvest': 'maturity',
  'days to panicle initiation': 'panicle-initiation',
  "variety's days": 'variety',
  'days to panicle initiation without transplanting': 'panicle-direct',
};

/** The cells of each row below every heading that starts so. */
function tables(text: string, heading: string): ReadonlyMap<string, readonly (readonly string[])[]> {
  const sections = text.split(/^## /m).filter((section) => section.startsWith(heading));
  return new Map(
    sections.map((section) => [
      section.slice(heading.length, section.indexOf('\n')),
      [...section.matchAll(/^\| (.*) \|$/gm)].slice(2).map((row) => row[1]?.split(' | ') ?? []),
    ]),
  );
}

const sourcesIn = (cell = '') =>
  [...cell.matchAll(/(.+?) \[([^\]]+)\](?:; |$)/g)].map(([, text, mark]) => ({
    text,
    mark: MARKS[mark ?? ''],
  }));

function boundIn(cell = ''): unknown {
  if (cell === '-') return null;
  if (/^\d+$/.test(cell)) return Number(cell);
  const [, of, sign, days, least] = /^(.+?)(?: ([+-]) (\d+))?(?:, never under (\d+))?$/.exec(cell) ?? [];
  const plus = days === undefined ? 0 : Number(`${sign}${days}`);
  return { of: QUANTITIES[of ?? ''], plus, ...(least === undefined ? {} : { atLeast: Number(least) }) };
}

function pointIn(text = ''): unknown {
  const [, at, activity, round] = /^(start|end) of (\S+)(?: \(round (\d+)\))?$/.exec(text) ?? [];
  return { activity, at, ...(round === undefined ? {} : { round: Number(round) }) };
}

function costIn(cell: string, when: string): unknown {
  const [, rank, text] = new RegExp(`${when}: (\\d+), ([^;]+)`).exec(cell) ?? [];
  return rank === undefined ? undefined : { rank: Number(rank), text };
}

/** What a row of a rule table says, in the words of the data. */
function ruleIn([name, points, lo, aim, hi, strength, costs = '', , sources, only]: readonly string[]) {
  const [from, to] = points?.split(' -> ') ?? [];
  const yieldsAt = /costs over (\d+)/.exec(costs)?.[1];
  return {
    name,
    from: pointIn(from),
    to: pointIn(to),
    ...{ lo: boundIn(lo), aim: boundIn(aim), hi: boundIn(hi) },
    strength,
    costLo: costIn(costs, 'too soon'),
    costHi: costIn(costs, 'too late'),
    yieldsAt: yieldsAt === undefined ? undefined : Number(yieldsAt),
    sources: sourcesIn(sources),
    whileOpen: only?.includes('work still to come') ? true : undefined,
  };
}

/** The part of a rule that the page shows: all but the way it holds for and the names of its costs' messages. */
function shown({ when: _, costLo, costHi, yieldsAt, whileOpen, ...rule }: Rule) {
  const bare = (cost: Rule['costLo']) => cost && { rank: cost.rank, text: cost.text };
  return { ...rule, costLo: bare(costLo), costHi: bare(costHi), yieldsAt, whileOpen };
}

const seasonOf = (way: Partial<Way>): Season => ({
  way: {
    water: 'irrigated',
    tillage: 'hoe',
    establishment: 'transplant',
    nursery: 'wet-bed',
    ripens: 'by-days',
    ...way,
  },
  ...{ areaHa: 1, varietyDays: 120, basalAdvised: true, reports: [] },
  ...{ blockWater: { from: null, to: null }, target: { from: null, to: null } },
});

describe('the default rulebook', () => {
  const ruleRows = [...tables(page, 'Rules').values()].flat();

  test('every rule stands in the page exactly as in the data, and nothing else does', () => {
    const read = ruleRows.map(ruleIn);
    for (const rule of book.rules) expect(read).toContainEqual(shown(rule));
    for (const row of read) expect(book.rules.map(shown)).toContainEqual(row);
  });

  test('every rule has its reason', () => {
    for (const [name, , , , , , , why] of ruleRows) expect(why).toBe(`because of ${name}`);
  });

  test('every figure stands in the page exactly as in the data, in the order of the data', () => {
    const rows = tables(page, 'Single figures').get('') ?? [];
    const read = rows.map(([key, value, unit, sources]) => [
      key,
      { value: Number(value), unit, sources: sourcesIn(sources) },
    ]);
    expect(read).toEqual(Object.entries(book.figures));
  });

  test('no source is missing', () => {
    const all = [...book.rules, ...Object.values(book.figures)].flatMap(({ sources }) => sources);
    expect(all.length).toBeGreaterThan(50);
    for (const { text, mark } of all) {
      const spoken = Object.keys(MARKS).find((word) => MARKS[word] === mark);
      expect(page).toContain(`${text} [${spoken}]`);
    }
  });

  test.each<[string, Partial<Way>]>([
    ['Ploughed (hoe, animals, two-wheel tractor), transplanted, irrigated', { tillage: 'animals' }],
    ['Ploughed (hoe, animals, two-wheel tractor), wet-seeded, irrigated', { establishment: 'wet-seed' }],
    ['Ploughed (hoe, animals, two-wheel tractor), transplanted, rain-fed', { water: 'rain-fed' }],
    ['Zero tillage, transplanted', { tillage: 'none' }],
  ])('%s has the rules and steps that are planned with', (title, way) => {
    const { rules, steps } = frameOf(book, seasonOf(way));
    const rows = tables(page, 'Rules: ').get(title) ?? [];
    const byDays = rows.filter((row) => !row.at(-1)?.startsWith('crops that ripen by a local date'));
    expect(byDays.map(ruleIn)).toEqual(rules.map(({ rule }) => shown(rule)));
    const named = steps.map((step, index) => [
      String(index + 1),
      step.activity + (step.round === undefined ? '' : ` (round ${step.round})`),
    ]);
    expect(
      tables(page, 'Steps in order: ')
        .get(title)
        ?.map((row) => row.slice(0, 2)),
    ).toEqual(named);
  });

  test('the days behind a bound that follows the variety are explained, each once', () => {
    for (const words of Object.keys(QUANTITIES)) expect(page.split(`\n- ${words}: `)).toHaveLength(2);
    expect(page).toContain("- days to harvest: the variety's days + `transplant-shock`, from sowing");
  });

  test('a step says what it tells and when it is no longer worth doing', () => {
    expect(page).toContain('| gap-fill | transplant | not worth doing past its last day |');
    expect(page).toContain('| weed (round 2) | transplant | worth doing until 7 days past its last day |');
    expect(page).toContain('| weed (round 2) | sow-direct | worth doing until 7 days past its last day |');
    expect(page).toMatch(/\| basal \| flood \| optional: .*; only where fertiliser .* is advised \|/);
  });
});

describe('the ways are those that the data tell apart', () => {
  const rule = (name: string, lo: Bound, when?: When): Rule => ({
    ...{ name, from: { activity: 'flood', at: 'end' }, to: { activity: 'transplant', at: 'start' } },
    ...{ lo, aim: null, hi: null, strength: 'must', sources: [{ text: 'a trial', mark: 'scheme' }] },
    ...(when ? { when } : {}),
  });
  const small = (...rules: readonly Rule[]): Rulebook => ({
    steps: [
      { activity: 'flood', implies: [] },
      { activity: 'transplant', implies: ['flood'] },
    ],
    ...{ rules, choices: [], rainGates: [], figures: {} },
  });
  const titles = (one: Rulebook) => wayTables(one).map(({ title }) => title);

  test('one table where no rule depends on the way; a crop that cannot be planted has none', () => {
    expect(titles(small(rule('hold', 3)))).toEqual(['Transplanted']);
    expect(titles({ ...small(), steps: [] })).toEqual([]);
  });

  test('a way of planting that comes as data gets its own table', () => {
    const base = small();
    const steps = base.steps.map((step) =>
      step.activity === 'transplant' ? { ...step, when: { establishment: ['transplant'] as const } } : step,
    );
    const seeded = {
      ...({ activity: 'sow-direct', implies: [] } as const),
      when: { establishment: ['wet-seed'] as const },
    };
    expect(titles({ ...base, steps: [...steps, seeded] })).toEqual(['Transplanted', 'Wet-seeded']);
  });

  test('ways with the same table share it, also where they are no simple list', () => {
    const mats = rule('mats', 1, { nursery: ['mat'] });
    const unploughed = rule('unploughed', 2, { tillage: ['none'] });
    expect(titles(small(mats))).toEqual([
      'Transplanted, nursery (wet bed, dry bed)',
      'Transplanted, nursery (mat)',
    ]);
    expect(titles(small(mats, unploughed))).toHaveLength(4);
    const other = {
      ...small(),
      steps: [
        { activity: 'flood', implies: [], when: { tillage: ['none'] } },
        { activity: 'transplant', implies: [] },
      ],
    } satisfies Rulebook;
    expect(titles({ ...other, rules: [rule('hold', 3, { nursery: ['mat'] })] })).toEqual([
      'Ploughed (hoe, animals, two-wheel tractor), transplanted',
      'Zero tillage, transplanted, nursery (wet bed, dry bed)',
      'Zero tillage, transplanted, nursery (mat)',
    ]);
  });

  test('a rule of no way, without a reason, is shown all the same', () => {
    const lost = {
      ...rule('lost', { of: 'maturity', plus: 2 }),
      to: { activity: 'weed', at: 'end', round: 3 },
    } as const;
    const text = rulebookPage(small(lost), () => undefined);
    expect([...tables(text, 'Rules that no way of growing uses').values()].flat()).toEqual([
      [
        ...['lost', 'end of flood -> end of weed (round 3)', 'days to harvest + 2', '-', '-', 'must'],
        ...['cannot give way', 'no reason is written yet', "a trial [scheme's own]", 'all'],
      ],
    ]);
  });

  test('a bar or a new line in a text does not end the cell', () => {
    const text = rulebookPage(small(rule('hold', 3)), () => 'mud|water\nsettle');
    expect(text).toContain('| mud\\|water settle |');
  });
});
