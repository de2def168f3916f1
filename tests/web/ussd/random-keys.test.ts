import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { languagesIn, loadCatalogue } from '../../../src/commands/sheet.ts';
import { isoDay } from '../../../src/plan/day.ts';
import { measure } from '../../../src/say/parts.ts';
import { isSure } from '../../../src/talk/screens/screen.ts';
import type { UssdShape } from '../../../src/web/ussd/shape.ts';
import { type Act, acts } from '../../support/key-walk.ts';
import { PHONES, type Request, walkedLine } from '../../support/walked-line.ts';

const LANGS = languagesIn();
const CODE = '*384*77';
const SHAPES: Readonly<Record<string, Partial<UssdShape>>> = {
  'all inputs so far': {},
  'all inputs so far, without an id of the session': {
    fields: { phone: 'phoneNumber', session: null, input: 'text', hit: null },
  },
  'the newest input alone': {
    ...{ inputs: 'latest', code: CODE },
    fields: { phone: 'msisdn', session: 'sid', input: 'input', hit: null },
    answer: { as: 'text', goOn: 'C;', end: 'E;' },
  },
  'the newest input in JSON, with an id of each hit': {
    ...{ inputs: 'latest', body: 'json' },
    fields: { phone: 'from', session: 'session', input: 'keys', hit: 'step' },
    answer: { as: 'json', text: 'show', state: 'after', goOn: 'wait', end: 'close' },
  },
};

const KEYS = [...loadCatalogue('en').messages.keys()].filter((key) => key.includes('.'));
const RECORD = LANGS.map((lang) => loadCatalogue(lang).messages.get('screen.record')?.get('') ?? '');
/** What only a slip of ours would show: a placeholder, a key of the catalogue, a value that is none. */
const OURS = /\{\{|\}\}|undefined|\bnull\b|NaN|Infinity|\[object|_(?:one|many|other)\b/;

type Walked = Awaited<ReturnType<typeof walkedLine>>;

/** The text of an answer in its shape's form; throws when it has another. */
function screenOf(body: string, { answer }: Partial<UssdShape>): string {
  if (answer?.as === 'json') {
    const { show, after, ...rest } = JSON.parse(body) as Readonly<Record<string, unknown>>;
    expect(rest).toEqual({});
    expect(['wait', 'close']).toContain(after);
    return String(show);
  }
  const [goOn, end] = answer ? [answer.goOn, answer.end] : ['CON ', 'END '];
  expect([goOn, end]).toContain(body.slice(0, goOn.length));
  return body.slice(goOn.length);
}

/** One screen's size, nothing of ours in it, and something to read. */
function checkScreen(shown: string): void {
  const { encoding, units } = measure(shown);
  expect(units, shown).toBeLessThanOrEqual(encoding === 'GSM-7' ? 160 : 70);
  expect(shown).not.toMatch(OURS);
  expect(shown.trim()).not.toBe('');
  expect(KEYS.filter((key) => shown.includes(key))).toEqual([]);
}

const seen = { hits: 0, sessions: 0, records: 0, twice: 0, doubled: 0, questions: 0 };

/** A carrier and its phones: what it has sent in the session that is open, and what each phone shows. */
function carrier(line: Walked, shape: Partial<UssdShape>) {
  const isLatest = shape.inputs === 'latest';
  const shown = new Map<string, string>();
  let [phone, session, inputs, hit] = ['', '', [] as readonly string[], 0];
  let sent: readonly Request[] = [];

  const deliver = async (request: Request): Promise<string> => {
    const { status, body } = await line.send(request);
    expect(status).toBe(200);
    const screen = screenOf(body, shape);
    checkScreen(screen);
    seen.hits += 1;
    return screen;
  };
  /** Nothing is recorded that the phone did not show before, and only that. */
  const checked = async (request: Request, times: 1 | 2): Promise<string> => {
    const [before, reports, texts] = [line.session(request.phone), line.reports(), line.texts()];
    const answers = await Promise.all(Array.from({ length: times }, () => deliver(request)));
    expect(new Set(answers).size).toBe(1);
    expect(line.texts() - texts).toBeLessThanOrEqual(1);
    const known = new Set(reports.map(({ id }) => id));
    const recorded = line.reports().filter(({ id }) => !known.has(id));
    if (recorded.length > 0) checkSeen(before, shown.get(request.phone), recorded);
    shown.set(request.phone, answers[0] ?? '');
    return answers[0] ?? '';
  };
  /** After any pause a hit that cannot be told from a key may lead on, but records nothing, however often it comes. */
  const doubled = async (request: Request): Promise<void> => {
    const records = line.records();
    for (const pauseMs of [3_200, 15_000, 100_000]) {
      line.clock.advance(pauseMs);
      shown.set(request.phone, await deliver(request));
      expect(line.records()).toBe(records);
    }
    seen.doubled += 1;
  };
  const go = async (input: string, twice: 'no' | 'later' | 'together'): Promise<void> => {
    line.clock.advance(4_000);
    hit += 1;
    const request = { phone, session, input, hit };
    sent = [...sent, request];
    const answer = await checked(request, twice === 'together' ? 2 : 1);
    if (twice === 'no') return;
    if (twice === 'later' && isLatest && shape.fields?.hit === null) return doubled(request);
    const rows = line.rows();
    line.clock.advance(twice === 'later' && !isLatest ? 30_000 : 1_000);
    expect(await deliver(request)).toBe(answer);
    expect(line.rows()).toBe(rows);
    seen.twice += 1;
  };
  return async (act: Act): Promise<void> => {
    switch (act.act) {
      case 'dial':
        [phone, session, sent] = [PHONES[act.phone] ?? '', act.session, []];
        inputs = act.behind === '' ? [] : [act.behind];
        seen.sessions += 1;
        return go(isLatest && shape.code ? [CODE, ...inputs].join('*') : inputs.join('*'), 'no');
      case 'key':
        inputs = [...inputs, act.key];
        return go(isLatest ? act.key : inputs.join('*'), act.twice);
      case 'empty':
        if (act.anew) inputs = [];
        return go('', 'later');
      case 'late': {
        const request = sent.at(-1 - act.ago);
        if (request && !isLatest) await checked(request, 1);
        return;
      }
      case 'wait':
        line.clock.advance(act.ms);
        return;
      case 'restart':
        return line.restart();
    }
  };
}

/** The screen before was one that records, it was what the phone showed, and what is recorded is what stood on it. */
function checkSeen(
  before: ReturnType<Walked['session']>,
  shown: string | undefined,
  recorded: ReturnType<Walked['reports']>,
): void {
  const screen = before?.screen;
  if (screen === undefined) throw new Error('recorded without a screen');
  expect(shown).toBe(before?.answer);
  seen.records += 1;
  if (screen.at === 'answer' || screen.at === 'sure-pick') {
    const { picks } = screen.at === 'answer' ? screen : screen.answer;
    expect(picks).toBeGreaterThan(0);
    seen.questions += 1;
    return;
  }
  expect(isSure(screen), screen.at).toBe(true);
  const { key = 1 } = screen as { readonly key?: number };
  expect(RECORD.some((label) => shown?.includes(`\n${key} ${label}\n`))).toBe(true);
  if (screen.at !== 'sure-report') return;
  const { activity, on } = screen;
  expect(recorded.map((row) => [row['activity'], row['done_on']])).toEqual(
    recorded.map(() => [activity, isoDay(on)]),
  );
}

describe.each(LANGS)('random keys in %s', (lang) => {
  test.each(Object.keys(SHAPES))('%s', async (name) => {
    const shape = SHAPES[name] ?? {};
    await fc.assert(
      fc.asyncProperty(acts(PHONES.length), async (all) => {
        const line = await walkedLine(lang, shape);
        try {
          const take = carrier(line, shape);
          for (const act of all) await take(act);
          expect(line.faults()).toEqual([]);
        } finally {
          await line.close();
        }
      }),
      { numRuns: 2, endOnFailure: true },
    );
  });
});

test('the walks came to something', () => {
  expect(seen.sessions).toBeGreaterThan(LANGS.length * 24);
  expect(seen.records).toBeGreaterThan(15);
  expect(seen.twice).toBeGreaterThan(100);
  expect(seen.doubled).toBeGreaterThan(10);
});
