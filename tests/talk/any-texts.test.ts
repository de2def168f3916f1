import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { step } from '../../src/talk/step.ts';
import { refusedTexts } from '../support/refused-texts.ts';
import { day } from '../support/seasons.ts';
import {
  ASHAS,
  type Came,
  type Kept,
  NOBODY,
  plotOf,
  take,
  textEvent,
  worldOn,
} from '../support/small-phone.ts';
import { anyTexts, type Sent } from '../support/texts.ts';

const START = day('2027-03-02');

/** Phones to begin with: three plots, one plot with a choice to make, nothing at all, a stranger. */
const PHONES: readonly Kept[] = [
  ASHAS,
  { ...ASHAS, plots: [plotOf('1', { varietyDays: 135 })], cautioned: [] },
  { ...ASHAS, plots: [] },
  NOBODY,
];

interface Turn {
  readonly before: Kept;
  readonly today: number;
  readonly came: Came;
}

function played(start: Kept, texts: readonly Sent[]): readonly Turn[] {
  const turns: Turn[] = [];
  let [kept, today] = [start, START];
  for (const { text, afterDays } of texts) {
    today += afterDays;
    const came = take(kept, text, today);
    turns.push({ before: kept, today, came });
    kept = came.after;
  }
  return turns;
}

/** Holds on every turn of every conversation. */
function always(holds: (turn: Turn) => void, runs = 150): void {
  fc.assert(
    fc.property(fc.constantFrom(...PHONES), anyTexts, (start, texts) => {
      for (const turn of played(start, texts)) holds(turn);
    }),
    { numRuns: runs },
  );
}

const recordOptions = ({ state }: Kept): readonly string[] =>
  state?.standing.at === 'choose' ? state.standing.options.map((option) => option.do) : [];

/** What a text may record: its own reports, or those of the question that it answers. */
function mayRecord({ before, came }: Turn): boolean {
  const { readings } = came.event.heard;
  if (readings.some(({ kind }) => kind === 'report')) return true;
  const answers = readings.length === 1 && readings[0]?.kind === 'answer';
  const offered = recordOptions(before);
  if (answers && (offered.includes('record') || offered.includes('read'))) return true;
  return before.state?.standing.at === 'which-plot' && (answers || came.event.details.plots.length > 0);
}

describe('any conversation', () => {
  test('never throws, says at most one text, of at most two parts', () => {
    always(({ came }) => {
      expect(came.effects.filter((effect) => effect.do === 'say').length).toBeLessThanOrEqual(1);
      expect(came.parts, came.said).toBeLessThanOrEqual(2);
      expect(came.said).not.toMatch(/\{\{|undefined|NaN|null|1970|Thu 1 Jan\b/);
    });
  });

  test('a fault of the work beside several things to do stays within two parts', () => {
    const texts = [
      { text: 'puddled 1', afterDays: 0 },
      { text: 'cleared 1', afterDays: 1 },
      { text: "ploughed 1, 2 and 3 don't know when, 22 cm", afterDays: 2 },
    ];
    const last = PHONES.map((start) => played(start, texts).at(-1)?.came);
    expect(last.some((came) => came?.said.includes('22 cm is too deep'))).toBe(true);
    for (const came of last) expect(came?.parts, came?.said).toBeLessThanOrEqual(2);
  });

  test('is answered, but for a second STOP', () => {
    always(({ before, came }) => {
      if (came.said !== '') return;
      expect(before.stopped).toBe(true);
      expect(came.event.heard.readings).toMatchObject([{ kind: 'account', what: 'stop' }]);
    });
  });

  test('records only what a report says, or what a question offered and its answer took', () => {
    always((turn) => {
      if (turn.came.recorded.length > 0) expect(mayRecord(turn), turn.came.event.text).toBe(true);
    });
  });

  test('records only on the phone’s own plots, and on no day to come', () => {
    always(({ before, today, came }) => {
      for (const { seasonId, on } of came.recorded) {
        expect(before.plots.map((plot) => plot.seasonId)).toContain(seasonId);
        expect(on ?? today).toBeLessThanOrEqual(today);
      }
    });
  });

  test('says of every text whether it recorded: an echo when it did, none when it did not', () => {
    always(({ came }) => {
      const echoed = came.keys.some((key) => /^echo\.(day|unknown|started)$/.test(key));
      expect(echoed, `${came.event.text} ${came.said}`).toBe(came.recorded.length > 0);
    });
  });

  test('takes back only reports that stand', () => {
    always(({ before, came }) => {
      for (const effect of came.effects) {
        if (effect.do !== 'undo') continue;
        expect(effect.reports.length).toBeGreaterThan(0);
        for (const id of effect.reports) expect(before.reports.map((report) => report.id)).toContain(id);
      }
    });
  });

  test('forgets, stops and joins only when told to', () => {
    always(({ before, came }) => {
      const kinds = came.effects.map((effect) => effect.do);
      if (kinds.includes('forget')) expect(recordOptions(before)).toContain('forget');
      if (kinds.includes('join')) expect(before.state?.standing).toMatchObject({ at: 'join', step: 'sure' });
      if (kinds.includes('stop')) expect(came.event.heard.readings).toMatchObject([{ what: 'stop' }]);
    });
  });

  test('the same text from the same state is the same turn', () => {
    always(({ before, today, came }) => {
      const again = step(before.state, came.event, worldOn(before, today));
      expect(again.effects).toEqual(came.effects);
      expect(JSON.stringify(again.state)).toBe(JSON.stringify(came.after.state));
    }, 80);
  });

  test('reminders are always of the phone’s seasons and of days to come', () => {
    always(({ before, today, came }) => {
      for (const effect of came.effects) {
        if (effect.do !== 'remind') continue;
        expect(before.plots.map((plot) => plot.seasonId)).toContain(effect.seasonId);
        expect(
          effect.reminders.filter(({ on, seasonId }) => on <= today || seasonId !== effect.seasonId),
        ).toEqual([]);
      }
    }, 80);
  });

  test('UNDO right after a text that recorded brings back the reports before it', () => {
    let undone = 0;
    always(({ before, today, came }) => {
      if (came.recorded.length === 0) return;
      const undo = take(came.after, 'undo', today);
      const sure = undo.keys[0]?.startsWith('undo.sure') ? take(undo.after, '1', today) : undo;
      expect(sure.after.reports, came.event.text).toEqual(before.reports);
      undone += 1;
    }, 400);
    expect(undone).toBeGreaterThan(50);
  });
});

const refused = refusedTexts('en');

describe('texts that must not be read as reports', () => {
  test('are there', () => {
    expect(refused.length).toBeGreaterThan(20);
  });

  test.each(refused)('"%s" records nothing', (text) => {
    const today = day('2027-03-10');
    const { effects } = step(null, textEvent(text, today), worldOn(ASHAS, today));
    expect(effects.filter((effect) => effect.do === 'record')).toEqual([]);
  });
});
