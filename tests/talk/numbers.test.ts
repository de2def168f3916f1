/** Every number in every text: from a row of the rulebook, from the plan, or from what was texted; none of the text's own. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { usualCropDays } from '../../src/agronomy/crop-days.ts';
import { everyWay } from '../../src/agronomy/every-way.ts';
import { holds } from '../../src/agronomy/frame.ts';
import type { Rulebook } from '../../src/agronomy/rulebook.ts';
import { DEFAULT_RULEBOOK } from '../../src/agronomy/rules/default-rulebook.ts';
import { NUMBERS, numbersFor, type Row } from '../../src/talk/numbers.ts';

type Tree = { readonly [name: string]: string | Tree };

function texts(tree: Tree, path = ''): readonly (readonly [string, string])[] {
  return Object.entries(tree).flatMap(([name, value]) => {
    const key = path === '' ? name : `${path}.${name}`;
    return typeof value === 'string' ? [[key, value] as const] : texts(value, key);
  });
}

const CATALOGUE = texts(
  JSON.parse(readFileSync(new URL('../../locales/en/messages.json', import.meta.url), 'utf8')) as Tree,
);
const bare = (key: string) => key.replace(/_(one|other|many|few|two|zero)$/, '');
const placeholders = CATALOGUE.flatMap(([key, text]) =>
  [...text.matchAll(/\{\{(\w+)\}\}/g)].map(([, name]) => ({ key: bare(key), name: name ?? '' })),
);

/** Days of the plan, which rules of the book have set. */
const DAYS = [
  ...['day', 'due', 'latest', 'earliest', 'from', 'to', 'planting', 'month'],
  ...['panicle', 'flowering', 'drain', 'harvest', 'soak', 'sow', 'till', 'span', 'part'],
];
/** Counted or reckoned from the plan of the plot: days late, ages, rain summed up and the gate's figure. */
const RECKONED = ['count', 'age', 'extra', 'sum', 'need', 'range'];
/** Results of field sums, and figures of the rulebook or the scheme that a sum chose by the plot's way, block and month. */
const SUMMED = [
  ...['deep', 'm3', 'barrows', 'kg', 'm2', 'hills', 'seedlings', 'hours', 'n', 'p2o5', 'k2o', 'cm', 'teams'],
  ...[
    'cut',
    'fill',
    'bags',
    'list',
    'whose',
    'product',
    'rate',
    'usual',
    'evaporation',
    'percolation',
    'depth',
    'mm',
  ],
];
/** Reckoned of the group's plots, texts and canal, or made for one answer: the code and how long it holds. */
const GROUPED = [
  ...['total', 'flow', 'texts', 'parts', 'cost', 'reached', 'failed', 'code', 'minutes', 'tail'],
  ...['cleared', 'ploughed', 'levelled', 'planted', 'list', 'reasons'],
];
/** What the grower texted, or what the scheme file says of plots and people. */
const TEXTED = [
  'depth',
  'mm',
  'percent',
  'area',
  'areas',
  'units',
  'unit',
  'days',
  'number',
  'plot',
  'plots',
  'max',
  'said',
  'phone',
];
/** Words, and messages whose own numbers are walked by themselves. */
const WORDS = [
  ...[
    'which',
    'inside',
    'do',
    'done',
    'activity',
    'word',
    'cost',
    'reason',
    'source',
    'what',
    'state',
    'steps',
  ],
  ...['officer', 'scheme', 'name', 'languages', 'block', 'tillage', 'names', 'to', 'words'],
  ...['blocks', 'team', 'teams', 'currency', 'part', 'span'],
];
/** Texts of joining and of counts have `days`, `max` and `depth` that are texted; elsewhere these are the rulebook's. */
const TEXTED_IN: Readonly<Record<string, RegExp>> = {
  days: /^(join|people\.add|sum\.(topdress|phases))/,
  max: /^join\./,
  depth: /^(check\.plough-depth|rain\.stands)/,
};

describe('placeholders', () => {
  test('there are many', () => {
    expect(placeholders.length).toBeGreaterThan(200);
  });

  test('each is a row of the rulebook, a day, reckoned by the plan, texted, or a word', () => {
    const unknown = placeholders.filter(({ key, name }) => {
      if (NUMBERS[key]?.[name]) return false;
      if (/^(sum\.|why\.sum-)/.test(key) && SUMMED.includes(name)) return false;
      if (TEXTED.includes(name)) return TEXTED_IN[name] !== undefined && !TEXTED_IN[name].test(key);
      return ![...DAYS, ...RECKONED, ...GROUPED, ...WORDS].includes(name);
    });
    expect(unknown).toEqual([]);
  });

  test('each row of the list is used by its message', () => {
    const listed = Object.entries(NUMBERS).flatMap(([key, rows]) =>
      Object.keys(rows).map((name) => `${key} ${name}`),
    );
    const used = new Set(placeholders.map(({ key, name }) => `${key} ${name}`));
    expect(listed.filter((one) => !used.has(one))).toEqual([]);
  });
});

describe('figures and number words written out in a text', () => {
  /** Examples of what to text: the number is the grower's. */
  const EXAMPLES =
    /\b(PLOUGHED|CLEARED|RAIN) \d+\b|ON 5 AUGUST|\d(\.\d)? (ha|acre)\b|like 120\b|\b(SPOTS 3(: 4 6 9 12 5)?|GERM 82 OF 100|NPK 80 40 40|WORK PLOUGH 3 WITH 2 TEAMS|SEED 0\.4 HA)\b|\bm[23]\b|P2O5|K2O/g;
  const NUMBER = /\d|\b(two|three|four|five|six|seven|eight|nine|ten|half|third|weeks?|months?|years?)\b/i;
  /** Numbers of answers, one more of something, and limits of the line itself; and where a source gives a share. */
  const ALLOWED: Readonly<Record<string, string>> = {
    'next.more': 'one more plot',
    'undo.more': 'one more report',
    'trouble.others': 'one more plot',
    'choice.send-two': 'the answers',
    'choice.send-many': 'the answers',
    'join.consent': 'the answers',
    'join.tillage': 'the answers, and the two wheels',
    'join.with.two-wheel': 'the two wheels',
    'join.plots-again': 'from 1',
    'join.variety': '0 for not known',
    'join.variety-again': 'limits of the line',
    'sum.germination': 'sprouted seeds are told of a hundred',
    'sum.no-seeds-few': 'a hundred seeds are counted best',
    'why.sum-water-month': 'a month of the year',
    'sum.water-hold': 'hours of a week',
    'sum.no-npk': 'as many nutrients as a bag names',
    'why.sum-nutrients': 'half bags are bought too',
    'why.sum-nutrients-advice': 'half bags are bought too',
    'sum.no-spots': 'as few spots as a survey takes, and more',
    'sum.survey-more': 'the sides of a plot',
    'why.sum-seed': 'sprouted seeds are told of a hundred',
    'why.sum-germination': 'sprouted seeds are told of a hundred',
    'digest.troubles': 'the digest is of a week',
    'why.seedling-old': 'the source of the rule: yields fall by half',
  };

  test('are only answers, examples and limits of the line', () => {
    const own = CATALOGUE.filter(([key, text]) => {
      const rest = text.replace(/\{\{\w+\}\}/g, '').replace(EXAMPLES, '');
      return NUMBER.test(rest) && !(bare(key) in ALLOWED);
    });
    expect(own).toEqual([]);
  });
});

const crop = usualCropDays(DEFAULT_RULEBOOK, 120);
const rows = Object.entries(NUMBERS).flatMap(([key, named]) =>
  Object.entries(named).map(([name, row]) => ({ key, name, row })),
);

describe.each(rows)('$key {{$name}}', ({ key, name, row }) => {
  const ways = everyWay().filter(
    (way) => 'figure' in row || ruleOf(row, DEFAULT_RULEBOOK, way) !== undefined,
  );

  test('has a row with a source', () => {
    expect(ways.length).toBeGreaterThan(0);
    for (const way of ways) {
      const sources =
        'figure' in row
          ? DEFAULT_RULEBOOK.figures[row.figure]?.sources
          : ruleOf(row, DEFAULT_RULEBOOK, way)?.sources;
      expect(sources?.length).toBeGreaterThan(0);
    }
  });

  test('follows the scheme that has another figure', () => {
    const [way] = ways;
    if (!way) throw new Error('no way has the row');
    const before = numbersFor(DEFAULT_RULEBOOK, key, { way, crop })[name] ?? 0;
    const after = numbersFor(raised(DEFAULT_RULEBOOK, row), key, { way, crop })[name];
    expect(after).toBe(before + 3);
  });
});

function ruleOf(row: Row, { rules }: Rulebook, way: Parameters<typeof holds>[1]) {
  if ('figure' in row) return undefined;
  return rules.find(
    ({ name, when, to }) => name === row.rule && holds(when, way) && (row.round ?? to.round) === to.round,
  );
}

/** The book with this row raised by 3. */
function raised(book: Rulebook, row: Row): Rulebook {
  if ('figure' in row) {
    const found = book.figures[row.figure];
    if (!found) throw new Error(`no figure ${row.figure}`);
    return { ...book, figures: { ...book.figures, [row.figure]: { ...found, value: found.value + 3 } } };
  }
  const rules = book.rules.map((rule) => {
    const bound = rule[row.bound];
    if (rule.name !== row.rule || bound === null) return rule;
    return {
      ...rule,
      [row.bound]: typeof bound === 'number' ? bound + 3 : { ...bound, plus: bound.plus + 3 },
    };
  });
  return { ...book, rules };
}
