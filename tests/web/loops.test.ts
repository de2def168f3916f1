/** Texts that no person sent, and lines that text each other: over HTTP, with the real conversation. */
import { describe, expect, onTestFinished, test } from 'vitest';
import { readVoices } from '../../src/sweeps/read-voices.ts';
import { realTalk } from '../../src/sweeps/real-talk.ts';
import { testLine } from '../support/test-line.ts';
import { ANN, VALLEY } from '../support/valley-scheme.ts';
import { startWeb, text } from '../support/webhook.ts';

const voices = readVoices();
const STRANGER = '+447700900077';
const ROUNDS = 200;
const SOME_ROUNDS = 40;
const MINUTE_MS = 60_000;

/** A phone that texts the line, a minute apart. */
async function webPhone(from: string) {
  const line = await testLine(onTestFinished, { talk: realTalk, voices, schemeText: VALLEY });
  const { url } = await startWeb(line, onTestFinished);
  let count = 0;
  const say = async (body: string): Promise<string | null> => {
    count += 1;
    line.clock.set(line.clock.nowMs() + MINUTE_MS);
    return (await text(url, `SM${count}`, from, body)).text;
  };
  return { line, say };
}

/** What another system texts when it last heard this. */
type Robot = (heard: string, round: number) => string;

/** Another system that answers whatever it is sent, for many rounds, also where nothing came back. */
async function answersTo(from: string, first: string, robot: Robot, rounds = ROUNDS) {
  const phone = await webPhone(from);
  let heard = (await phone.say(first)) ?? '';
  let answers = 1;
  for (let round = 1; round <= rounds; round++) {
    const answer = await phone.say(robot(heard, round));
    heard = answer ?? heard;
    if (answer !== null) answers += 1;
  }
  return { ...phone, answers };
}

describe('a robot that texts for two hundred rounds', () => {
  const ROBOTS: readonly (readonly [string, Robot, number])[] = [
    ['echoes what it is sent', (heard) => heard, 1],
    ['echoes with a word before it', (heard) => `Undelivered: ${heard}`, 1],
    ['counts tickets up', (_, round) => `Ticket ${round} received, we look into it`, 6],
    ['counts', (_, round) => String(round), 6],
    ['says 1', () => '1', 6],
    ['says 2', () => '2', 6],
    ['says yes', () => 'yes', 6],
    ['says ok thanks', () => 'ok thanks', 6],
    ['thanks in other words', (_, round) => `Thank you ${'!'.repeat(round)}`, 6],
    ['names plots', (_, round) => `plot ${(round % 3) + 1}`, 12],
  ];
  test.each(ROBOTS)('%s: to a grower', async (_, robot, most) => {
    const { answers, line } = await answersTo(ANN, 'next', robot);
    expect(answers).toBeLessThanOrEqual(most);
    const rows = (table: 'texts_in' | 'reports' | 'outbox') =>
      line.db.selectFrom(table).select('id').execute();
    expect(await rows('texts_in')).toHaveLength(ROUNDS + 1);
    expect(await rows('reports')).toEqual([]);
    expect(await rows('outbox')).toEqual([]);
  });
  test.each(ROBOTS)('%s: a stranger', async (_, robot, most) => {
    expect((await answersTo(STRANGER, 'who is this', robot, SOME_ROUNDS)).answers).toBeLessThanOrEqual(most);
  });
  test.each([
    'unclear text of mine',
    'ploughed or puddled 1',
    '1 ploughed 12 cm no 2',
    'join',
    'JOIN VALLEY',
  ])('says 1 after "%s"', async (first) => {
    const { answers } = await answersTo(ANN, first, () => '1', SOME_ROUNDS);
    expect(answers).toBeLessThanOrEqual(8);
  });
});
