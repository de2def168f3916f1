/** Texts that get no answer are kept all the same; what can be read is always answered. Over HTTP, with the real conversation. */
import { describe, expect, onTestFinished, test } from 'vitest';
import { queueText } from '../../src/store/outbox.ts';
import { readVoices } from '../../src/sweeps/read-voices.ts';
import { realTalk } from '../../src/sweeps/real-talk.ts';
import { sweepOutbox } from '../../src/sweeps/sweep-outbox.ts';
import { takeText } from '../../src/web/take-text.ts';
import { HOUR_MS, testLine } from '../support/test-line.ts';
import { ANN, VALLEY } from '../support/valley-scheme.ts';
import { postForm, smsForm, startWeb, text } from '../support/webhook.ts';

const voices = readVoices();
const MINUTE_MS = 60_000;

/** Ann's phone, texting a minute apart. */
async function anns() {
  const line = await testLine(onTestFinished, { talk: realTalk, voices, schemeText: VALLEY });
  const { url } = await startWeb(line, onTestFinished);
  let count = 0;
  const wait = (ms: number) => line.clock.set(line.clock.nowMs() + ms);
  const say = async (body: string): Promise<string | null> => {
    wait(MINUTE_MS);
    count += 1;
    return (await text(url, `SM${count}`, ANN, body)).text;
  };
  const sayAll = async (bodies: readonly string[]) => {
    const answers: (string | null)[] = [];
    for (const body of bodies) answers.push(await say(body));
    return answers;
  };
  const rows = (table: 'reports' | 'troubles' | 'outbox') => line.db.selectFrom(table).select('id').execute();
  const kept = () =>
    line.db.selectFrom('texts_in').select(['body', 'answer', 'faulty']).orderBy('turn').execute();
  return { line, url, say, sayAll, wait, rows, kept };
}

const UNREAD = ['xqzt a', 'xqzt b', 'xqzt c', 'xqzt d', 'xqzt e', 'xqzt f', 'xqzt g'];
const isAnswered = (answers: readonly (string | null)[]) => answers.map((answer) => answer !== null);

describe('an automatic text', () => {
  const AUTOMATIC = [
    'Auto reply: I am driving',
    'You have 2 missed calls from +447700900123',
    'Je suis en réunion, je vous rappelle',
    'Samahani siwezi kuongea sasa, nitakupigia',
    'আমি এখন ব্যস্ত, পরে কল করব',
  ];

  test('is kept without an answer, whatever its language, and stays silent when it comes again', async () => {
    const { url, sayAll, kept, rows } = await anns();
    expect(await sayAll(AUTOMATIC)).toEqual(AUTOMATIC.map(() => null));
    expect((await text(url, 'SM1', ANN, AUTOMATIC[0] ?? '')).text).toBeNull();
    expect(await kept()).toEqual(AUTOMATIC.map((body) => ({ body, answer: null, faulty: 0 })));
    expect([await rows('reports'), await rows('troubles'), await rows('outbox')]).toEqual([[], [], []]);
  });

  test('raises no misses and leaves a question open', async () => {
    const { say, sayAll, rows } = await anns();
    await sayAll(['xqzt a', ...AUTOMATIC]);
    expect(await rows('troubles')).toEqual([]);
    expect(await say('ploughed or puddled 1 yesterday')).toMatch(/1/);
    await sayAll(AUTOMATIC);
    await say('1');
    expect(await rows('reports')).toHaveLength(1);
  });

  test('that came while the line was down leaves what was asked since', async () => {
    const { line, say, rows } = await anns();
    const sentMs = line.clock.nowMs();
    await say('ploughed or puddled 1 yesterday');
    const late = { carrierId: 'LATE', from: ANN, text: AUTOMATIC[0] ?? '', sentMs };
    expect(await takeText(line, late)).toBeNull();
    await say('1');
    expect(await rows('reports')).toHaveLength(1);
    expect(await rows('outbox')).toEqual([]);
  });

  test('with a report is read, and STOP is heard whatever stands about it', async () => {
    const { say, rows } = await anns();
    expect(await say('Auto reply: ploughed plot 1 yesterday')).not.toBeNull();
    expect(await rows('reports')).toHaveLength(1);
    expect(await say('STOP')).not.toBeNull();
  });
});

describe("the line's own words", () => {
  test('come back, whole, in part or behind a word, are silent; a word that they ask for is read', async () => {
    const { say, rows } = await anns();
    const answer = (await say('ploughed 1 yesterday')) ?? '';
    const echoes = [answer, `"${answer.toUpperCase()}"`, `Fwd: ${answer}`, answer.slice(0, 60)];
    for (const echo of echoes) expect(await say(echo)).toBeNull();
    expect(await rows('reports')).toHaveLength(1);
    expect(await say('next')).not.toBeNull();
    expect(await say('ploughed 2')).not.toBeNull();
    expect(await rows('reports')).toHaveLength(2);
  });

  test('that were sent without being asked for are known too', async () => {
    const { line, say, rows } = await anns();
    const words = 'Tomorrow: plough plot 1. Text PLOUGHED 1 when it is done.';
    const nowMs = line.clock.nowMs();
    const times = { notBeforeMs: nowMs, expiresMs: nowMs + HOUR_MS };
    await queueText(line.db, { id: 'o1', key: 'k1', phone: ANN, text: words, ...times }, nowMs, null);
    await sweepOutbox(line);
    expect(await say(words)).toBeNull();
    expect(await rows('reports')).toEqual([]);
  });
});

describe('texts that cannot be read', () => {
  test('the same one is answered twice, and anew after something else', async () => {
    const { sayAll } = await anns();
    const answers = await sayAll(['xqzt', 'Xqzt!', 'xqzt', 'xqzt', 'mbo', 'xqzt', 'xqzt', 'xqzt']);
    expect(isAnswered(answers)).toEqual([true, true, false, false, true, true, true, false]);
  });

  test('are answered five times in an hour; the last answer tells who was told', async () => {
    const { say, sayAll, rows } = await anns();
    const answers = await sayAll(UNREAD);
    expect(isAnswered(answers)).toEqual([true, true, true, true, true, false, false]);
    expect(answers[4]).toMatch(/answer no more of them.*Ada .*will call you.*\+447700900990/);
    expect(answers.slice(0, 4).join()).not.toMatch(/no more of them/);
    expect(await rows('troubles')).toHaveLength(3);
    expect(await say('ploughed 1 yesterday')).toMatch(/[Pp]lough/);
    expect(await rows('reports')).toHaveLength(1);
  });

  test('a text that can be read ends the row, and so does an hour of quiet', async () => {
    const { say, sayAll, wait } = await anns();
    await sayAll(UNREAD);
    expect(await say('xqzt h')).toBeNull();
    expect(await say('next')).not.toBeNull();
    expect(await say('xqzt i')).not.toBeNull();
    await sayAll(UNREAD);
    expect(await say('xqzt j')).toBeNull();
    wait(HOUR_MS);
    expect(await say('xqzt k')).not.toBeNull();
  });

  test('half an hour apart are all answered: there are never five in an hour', async () => {
    const { say, wait } = await anns();
    for (const body of UNREAD) {
      wait(HOUR_MS / 2);
      expect(await say(body)).not.toBeNull();
    }
  });

  test('a clock that goes back a day silences nobody', async () => {
    const { say, sayAll, wait } = await anns();
    await sayAll(UNREAD);
    wait(-24 * HOUR_MS);
    expect(await say('xqzt h')).not.toBeNull();
  });

  test('answers to the questions of the line are no such texts', async () => {
    const { say } = await anns();
    for (let round = 0; round < 6; round++) {
      expect(await say('ploughed or puddled 1 yesterday')).not.toBeNull();
      expect(await say('3')).not.toBeNull();
    }
  });
});

describe('pictures and signs without words', () => {
  const PICTURE = 'We cannot read pictures. Please text in words. MENU lists what you can text.';

  async function bens() {
    const phone = await anns();
    let count = 0;
    const picture = async () => {
      phone.wait(MINUTE_MS);
      count += 1;
      const form = { ...smsForm(`MM${count}`, ANN, ''), NumMedia: '1' };
      return (await postForm(phone.url, form)).text;
    };
    return { ...phone, picture };
  }

  test('pictures are answered twice, then no more until an hour has passed or something else came', async () => {
    const { picture, say, wait, kept } = await bens();
    const answers = [];
    for (let i = 0; i < 8; i++) answers.push(await picture());
    expect(answers).toEqual([PICTURE, PICTURE, ...Array(6).fill(null)]);
    expect(await kept()).toHaveLength(8);
    expect(await say('next')).not.toBeNull();
    expect(await picture()).toBe(PICTURE);
    for (let i = 0; i < 3; i++) await picture();
    expect(await picture()).toBeNull();
    wait(HOUR_MS);
    expect(await picture()).toBe(PICTURE);
  });

  test('an emoji alone is answered like a greeting, and again and again no more', async () => {
    const { sayAll } = await bens();
    const answers = await sayAll(['🙏', '👍👍', '🙏', '🌾', '❤️', '🙏']);
    expect(answers[0]).toMatch(/^Welcome\. Text NEXT/);
    expect(isAnswered(answers)).toEqual([true, true, false, false, false, false]);
  });

  test('of all kinds there are at most five answers in an hour', async () => {
    const { picture, say } = await bens();
    const answers = [];
    for (let i = 0; i < 5; i++)
      answers.push(await picture(), await say('🙏'), await say(`xqzt ${'abcde'[i]}`));
    expect(answers.filter((answer) => answer !== null)).toHaveLength(5);
    expect(answers.slice(0, 3).every((answer) => answer !== null)).toBe(true);
  });

  test('pictures leave a question open, also where they are silent', async () => {
    const { picture, say, rows } = await bens();
    await say('ploughed or puddled 1 yesterday');
    for (let i = 0; i < 4; i++) await picture();
    await say('1');
    expect(await rows('reports')).toHaveLength(1);
  });
});

test('a fault of ours that comes again and again is not told for ever', async () => {
  const step = () => {
    throw new Error('boom');
  };
  const line = await testLine(onTestFinished, { talk: { ...realTalk, step }, voices, schemeText: VALLEY });
  const answers: (string | null)[] = [];
  for (let round = 0; round < 8; round++)
    answers.push(await takeText(line, { carrierId: `SM${round}`, from: ANN, text: 'next' }));
  expect(isAnswered(answers)).toEqual([true, true, true, true, true, false, false, false]);
  line.clock.set(line.clock.nowMs() + HOUR_MS);
  expect(await takeText(line, { carrierId: 'later', from: ANN, text: 'next' })).not.toBeNull();
});

test.each(['12345', '80808', 'MyNetwork', 'INFO-LINE', ''])(
  'sender "%s": nothing is kept or queued',
  async (from) => {
    const { line, url } = await anns();
    expect((await text(url, 'SM1', from, 'next')).text).toBeNull();
    expect(await line.db.selectFrom('texts_in').select('id').execute()).toEqual([]);
    expect(await line.db.selectFrom('outbox').select('id').execute()).toEqual([]);
  },
);
