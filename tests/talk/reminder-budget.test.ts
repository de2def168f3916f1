import { describe, expect, test } from 'vitest';
import { ACTIVITIES, USUAL_WAY, type Way } from '../../src/agronomy/season.ts';
import type { Day } from '../../src/plan/day.ts';
import type { Saying } from '../../src/say/message.ts';
import { measure } from '../../src/say/parts.ts';
import { readVoices } from '../../src/sweeps/read-voices.ts';
import type { Reminder } from '../../src/talk/effect.ts';
import { wordFor } from '../../src/talk/phrases.ts';
import { planned } from '../../src/talk/planned.ts';
import { plotRuns } from '../../src/talk/plot-runs.ts';
import { remind } from '../../src/talk/remind.ts';
import { day } from '../support/seasons.ts';
import { ASHAS, type Kept, plotOf, worldOn } from '../support/small-phone.ts';

const VOICES = readVoices();
const WHYS: readonly Reminder['why'][] = ['tomorrow', 'overdue', 'closing', 'rain', 'turn'];
const WAYS: Readonly<Record<string, Way>> = {
  usual: USUAL_WAY,
  'wet-seeded by hoe': { ...USUAL_WAY, tillage: 'hoe', establishment: 'wet-seed' },
  'rain-fed': { ...USUAL_WAY, water: 'rain-fed', tillage: 'animals', nursery: 'dry-bed' },
};
const FIRST = day('2027-02-22');
const DAYS = 150;
/** Days between a report and the next: long enough that the step is asked after and its last day comes. */
const EVERY = 13;

/** A day and the work that was done by then, on each plot of a group: so many plots, so many of the last reports not yet in. */
type Group = readonly [plots: number, behind: number];
const GROUPS: Readonly<Record<string, readonly Group[]>> = {
  'all alike': [[9, 0]],
  'five, and four a step behind': [
    [5, 0],
    [4, 1],
  ],
  'each its own': Array.from({ length: 9 }, (_, behind): Group => [1, behind]),
};

interface Moment {
  readonly today: Day;
  readonly reports: Kept['reports'];
}

/** Days of a plot's season: the last on which each thing was said of each work. */
function momentsOf(way: Way): readonly Moment[] {
  const moments = new Map<string, Moment>();
  let reports: Kept['reports'] = [];
  for (let today = FIRST; today < FIRST + DAYS; today += 1) {
    const kept = { ...ASHAS, plots: [plotOf('1', { way })], reports };
    for (const { sentences } of said(kept, today, WHYS))
      for (const { key, values } of sentences)
        moments.set(`${key} ${JSON.stringify(values?.['activity'] ?? values?.['do'])}`, { today, reports });
    if ((today - FIRST) % EVERY === 0) reports = [...reports, ...reportNext(kept, today)];
  }
  return [...new Set(moments.values())];
}

function reportNext(kept: Kept, today: Day): Kept['reports'] {
  const [plot] = worldOn(kept, today).plots;
  const next = plot && planned(worldOn(kept, today), plot).plan.steps.find(({ status }) => status === 'next');
  if (!plot || !next) return [];
  const id = `r${today}`;
  const { seasonId } = plot;
  const what = { activity: next.activity, stage: 'finished', on: today, measures: {} } as const;
  return [{ id, batch: id, seasonId, turn: today, ...what }];
}

/** What is said when everything that may be due is. */
function said(kept: Kept, today: Day, whys: readonly Reminder['why'][]): readonly Saying[] {
  const due = kept.plots.flatMap(({ seasonId }) =>
    ACTIVITIES.flatMap((activity) => whys.map((why) => ({ on: today, seasonId, activity, why }))),
  );
  const { effects } = remind(worldOn(kept, today), due);
  return effects.flatMap((effect) => (effect.do === 'say' ? [effect.saying] : []));
}

/** Nine plots, as many as a phone can join with. */
function nine(way: Way, { reports }: Moment, groups: readonly Group[]): Kept {
  const behind = groups.flatMap(([plots, steps]) => Array<number>(plots).fill(steps));
  const plots = behind.map((_, i) => plotOf(String(i + 1), { way }));
  const all = plots.flatMap(({ seasonId, id }, i) =>
    reports
      .slice(0, Math.max(0, reports.length - (behind[i] ?? 0)))
      .map((one) => ({ ...one, seasonId, id: `${id} ${one.id}` })),
  );
  return { ...ASHAS, plots, reports: all };
}

describe.each(Object.keys(WAYS))('reminders of nine plots, %s', (name) => {
  const way = WAYS[name] ?? USUAL_WAY;
  const moments = momentsOf(way);

  test('there are some of every kind', () => {
    expect(moments.length).toBeGreaterThan(12);
  });

  test.each(Object.keys(GROUPS))('%s: one part in every language', (group) => {
    const long = new Set<string>();
    const keys = new Set<string>();
    for (const moment of moments) {
      const kept = nine(way, moment, GROUPS[group] ?? []);
      for (const whys of [WHYS, ['closing', 'tomorrow']] as const) {
        for (const saying of said(kept, moment.today, whys)) {
          for (const { key } of saying.sentences) keys.add(key);
          for (const voice of VOICES) {
            const text = voice.say(saying, 1);
            const { encoding, parts, units } = measure(text);
            if (parts > (encoding === 'GSM-7' ? 1 : 2)) long.add(`${units}: ${text}`);
          }
        }
      }
    }
    expect([...long]).toEqual([]);
    expect(keys).toContain('reminder.overdue');
  });
});

describe('the plots of an overdue step', () => {
  test.each([
    [['1', '2', '3', '4', '5', '6', '7', '8', '9'], '1-9'],
    [['1', '2', '4', '5', '6'], '1 2 4-6'],
    [['1', '2', '3', '5', '7', '8', '9'], '1-3 5 7-9'],
    [['12'], '12'],
    [[], ''],
  ])('%j are texted as "%s", and heard as such in every language', (numbers, texted) => {
    expect(plotRuns(numbers)).toBe(texted);
    if (numbers.length === 0) return;
    for (const voice of VOICES) {
      for (const activity of ACTIVITIES) {
        const word = voice.say({ sentences: [wordFor(activity)] });
        const { readings } = voice.hear(`${word} ${texted}`, FIRST);
        expect([voice.lang, word, readings]).toMatchObject([
          voice.lang,
          word,
          [{ kind: 'report', activity, plots: numbers }],
        ]);
      }
    }
  });
});
