import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ACTIVITIES } from '../../../src/agronomy/season.ts';
import { loadCatalogue } from '../../../src/commands/sheet.ts';
import { measure } from '../../../src/say/parts.ts';
import { sampleTexts } from '../../../src/say/sampler.ts';
import { SAMPLES } from '../../../src/say/samples.ts';
import type { Effect } from '../../../src/talk/effect.ts';
import { eventOfReadings } from '../../../src/talk/event-of-readings.ts';
import { reportDone } from '../../../src/talk/screens/entries.ts';
import { isSure, MAIN, type Screen } from '../../../src/talk/screens/screen.ts';
import { viewOf } from '../../../src/talk/screens/screen-view.ts';
import { pagesOf, showScreen } from '../../../src/talk/screens/show.ts';
import { step } from '../../../src/talk/step.ts';
import { screenWorld, session, speaking, TODAY, VOICES } from '../../support/screen-phone.ts';
import { ASHAS, plotOf, worldOn } from '../../support/small-phone.ts';

const LANGS = VOICES.map(({ lang }) => lang);
const TROUBLES = ['no-water', 'no-seed', 'no-machine', 'flooded-out', 'pests', 'other'] as const;
const DEPTHS = [100, 100, 100, 100, 100, 100, 100, 100, 100];

/** Plots with the longest names that a phone can have. */
const MANY = {
  ...ASHAS,
  plots: [plotOf('999'), ...Array.from({ length: 30 }, (_, i) => plotOf(String(900 + i)))],
};
const plotId = 'p999';

const isOneScreen = (shown: string) => {
  const { encoding, units } = measure(shown);
  return units <= (encoding === 'GSM-7' ? 160 : 70);
};

/** Every screen with long values; those with pages on their first. */
const SCREENS: readonly Screen[] = [
  MAIN,
  ...(['report', 'dates', 'survey', 'trouble'] as const).map(
    (task) => ({ at: 'plot', task, page: 0 }) as const,
  ),
  { at: 'activity', plotId, page: 0 },
  ...ACTIVITIES.flatMap((activity): Screen[] => [
    { at: 'day', plotId, activity },
    { at: 'days-ago', plotId, activity },
    ...Array.from(
      { length: 100 },
      (_, ago) => ({ at: 'sure-report', plotId, activity, on: TODAY - ago * 4 }) as const,
    ),
  ]),
  ...DEPTHS.map((_, index) => ({ at: 'spot', plotId, depthsCm: DEPTHS.slice(0, index) }) as const),
  { at: 'sure-survey', plotId, depthsCm: DEPTHS },
  { at: 'sure-survey', plotId, depthsCm: DEPTHS.map(() => 99.5), key: 2 },
  { at: 'sure-pick', pick: 8, key: 2, answer: { at: 'answer', text: 'x'.repeat(400), page: 0, picks: 8 } },
  { at: 'trouble', plotId, page: 0 },
  ...TROUBLES.map((what) => ({ at: 'sure-trouble', plotId, what }) as const),
  { at: 'language', page: 0 },
  { at: 'resume', left: { at: 'activity', plotId, page: 0 } },
];

const PAGED: readonly Screen['at'][] = ['plot', 'activity', 'trouble', 'language'];

/** Every kind of screen: a new one is a type error here until it is named, and then has to be among those that are measured. */
const KINDS: Readonly<Record<Screen['at'], true>> = {
  ...{ main: true, plot: true, activity: true, day: true, 'days-ago': true, 'sure-report': true, spot: true },
  ...{ 'sure-survey': true, trouble: true, 'sure-trouble': true, language: true, answer: true, resume: true },
  'sure-pick': true,
};

test('every kind of screen is measured', () => {
  const measured = new Set([...SCREENS.map(({ at }) => at), 'answer']);
  expect([...measured].sort()).toEqual(Object.keys(KINDS).sort());
});

describe.each(LANGS)('%s', (lang) => {
  const its = screenWorld(speaking(lang, MANY));

  test('every message is an answer whose pages are one screen each, and nothing of it is lost', () => {
    const texts = sampleTexts(loadCatalogue(lang), SAMPLES).map(({ text }) => text);
    const long: string[] = [];
    for (const text of [...texts, texts.slice(0, 9).join(' '), 'x'.repeat(400)]) {
      const answer = { at: 'answer', text, page: 0, picks: 2 } as const;
      const view = viewOf(its, answer);
      if (view.kind !== 'text') throw new Error('an answer is a text');
      const pages = pagesOf(its, view);
      expect(pages.join('').replaceAll(' ', '')).toBe(text.replaceAll(' ', ''));
      for (const page of pages.keys())
        for (const wrong of [false, true]) long.push(showScreen(its, { ...answer, page }, wrong));
    }
    expect(long.length).toBeGreaterThan(texts.length);
    expect(long.filter((one) => !isOneScreen(one))).toEqual([]);
  });

  test('every page of every screen is one screen, also with the line about a wrong key', () => {
    const long: string[] = [];
    for (const screen of SCREENS) {
      const view = viewOf(its, screen);
      const pages = view.kind === 'number' ? 1 : pagesOf(its, view).length;
      for (let page = 0; page < pages; page += 1) {
        const shown = [false, true].map((wrong) => showScreen(its, { ...screen, page } as Screen, wrong));
        long.push(...shown.filter((one) => !isOneScreen(one)));
      }
    }
    expect(long).toEqual([]);
  });

  test('what has no pages to turn has one', () => {
    for (const screen of SCREENS.filter(({ at }) => !PAGED.includes(at))) {
      const view = viewOf(its, screen);
      if (view.kind !== 'number') expect(pagesOf(its, view).length, screen.at).toBe(1);
    }
  });

  test('what stands outside the screens is one screen', () => {
    for (const key of ['screen.bye', 'screen.fault'])
      expect(isOneScreen(its.speak({ sentences: [{ key }] })), key).toBe(true);
    const code = 'ORROWEORROWE';
    expect(isOneScreen(its.speak({ sentences: [{ key: 'screen.stranger', values: { code } }] }))).toBe(true);
  });

  test('what is picked is recorded, and nothing else: every activity on some days', () => {
    const plot = plotOf('3');
    let count = 0;
    for (const activity of ACTIVITIES) {
      for (const on of [TODAY, TODAY - 1, TODAY - 12]) {
        const move = reportDone(plot, activity, on);
        if (move.go !== 'do') throw new Error('a report is an entry');
        const event = eventOfReadings({ batch: 'b', text: move.entry.words, lang, ...move.entry });
        const { effects } = step(null, event, worldOn(speaking(lang), TODAY));
        const recorded = effects.flatMap((effect) => (effect.do === 'record' ? [effect.report] : []));
        expect(recorded.every((one) => one.activity === activity && one.on === on)).toBe(true);
        expect(effects.some((effect) => effect.do === 'say')).toBe(true);
        count += recorded.length;
      }
    }
    expect(count).toBeGreaterThan(ACTIVITIES.length);
  });
});

const RECORDS: readonly Effect['do'][] = ['record', 'record-rain', 'undo', 'note-trouble', 'change-season'];

/** Mostly keys that are offered; now and then a slip, an empty one, or words. */
const aKey = fc.oneof(
  { weight: 8, arbitrary: fc.constantFrom('1', '1', '2', '3', '4', '5', '6') },
  { weight: 3, arbitrary: fc.constantFrom('0', '9', '999', '12', '8') },
  { weight: 1, arbitrary: fc.oneof(fc.string(), fc.constantFrom('', '#', '১', '1e3', '-1', '99999999999')) },
);

test('random keys: every screen fits, every hit is answered, and nothing is recorded unseen', () => {
  let confirmed = 0;
  const hits = fc.array(fc.array(aKey, { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 30 });
  fc.assert(
    fc.property(fc.constantFrom(...LANGS), fc.constantFrom(1, 3, 31), hits, (lang, plots, all) => {
      const phone = session(speaking(lang, { ...MANY, plots: MANY.plots.slice(0, plots) }));
      for (const keys of all) {
        const before = phone.screen();
        const { shown, ended, effects } = phone.keys(...keys);
        if (ended) return;
        expect(shown.length).toBeGreaterThan(0);
        expect(isOneScreen(shown), shown).toBe(true);
        if (!effects.some((effect) => RECORDS.includes(effect.do))) continue;
        const asked = before.at === 'answer' && before.picks > 0;
        expect(isSure(before) || asked, before.at).toBe(true);
        confirmed += 1;
      }
    }),
    { numRuns: 120 },
  );
  expect(confirmed).toBeGreaterThan(10);
});
