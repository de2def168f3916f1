/** A number is not a person: several phones of one grower, and numbers that have gone to somebody else, on a real database. */
import { readFileSync } from 'node:fs';
import { describe, expect, onTestFinished, test } from 'vitest';
import { noteNumber } from '../../src/sweeps/number-news.ts';
import { readVoices } from '../../src/sweeps/read-voices.ts';
import { realTalk } from '../../src/sweeps/real-talk.ts';
import { sweepReminders } from '../../src/sweeps/sweep-reminders.ts';
import { takeText } from '../../src/web/take-text.ts';
import { takeHit } from '../../src/web/ussd/take-hit.ts';
import { DAY_MS, HOUR_MS, testLine } from '../support/test-line.ts';

const DEMO = readFileSync(new URL('../../scripts/demo/orrowe-valley.yaml', import.meta.url), 'utf8');
const voices = readVoices();

const [ASHA, BRAM, SHARED, NEW] = ['+447700900001', '+447700900002', '+447700900008', '+447700900701'];
const [FARID, FARIDS_SECOND, OFFICE] = ['+447700900006', '+447700900016', '+447700900990'];

async function valley() {
  const line = await testLine(onTestFinished, { talk: realTalk, voices, schemeText: DEMO });
  let count = 0;
  const text = async (from: string, words: string) => {
    count += 1;
    return (await takeText(line, { carrierId: `SM${count}`, from, text: words })) ?? '';
  };
  /** The code that PHONE gives. */
  const codeFor = async (from: string) => /\d{5}/.exec(await text(from, 'PHONE'))?.[0] ?? '';
  const phonesOf = async (id: string) => {
    const links = line.db.selectFrom('phone_people').select('phone').where('person_id', '=', id);
    return (await links.orderBy('place').execute()).map(({ phone }) => phone);
  };
  const queued = async (to: string) => {
    const texts = line.db.selectFrom('outbox').select(['key', 'text']).where('phone', '=', to);
    return await texts.where('state', '=', 'queued').orderBy('id').execute();
  };
  return { line, text, codeFor, phonesOf, queued };
}

const person = (id: string) => `orrowe-valley/${id}`;

describe('a second phone', () => {
  test('the code from the first phone ties it; both phones then speak of the same plots', async () => {
    const { text, codeFor, phonesOf, queued, line } = await valley();
    const code = await codeFor(ASHA);
    expect(code).toMatch(/^[1-9]\d{4}$/);
    expect(await text(NEW, `PHONE ${code}`)).toMatch(/^Good, Asha: your plots are on this phone too/);
    expect(await phonesOf(person('asha'))).toEqual([ASHA, NEW]);
    expect(await text(NEW, 'cleared 2')).toMatch(/^Plot 2 cleared/);
    expect(await text(ASHA, 'plots')).toMatch(/Plot 2: 0\.3 ha, clearing was last/);
    // The first phone is told, with no more than the last digits.
    expect(await queued(ASHA)).toMatchObject([{ text: expect.stringMatching(/ends in 701/) }]);
    const said = line.db.selectFrom('consents').selectAll().where('phone', '=', NEW);
    expect(await said.execute()).toMatchObject([
      { kind: 'tied', person_id: person('asha'), words: `PHONE ${code}` },
    ]);
  });

  test.each(['{code}', 'phone {code}.', 'my second phone {code}'])(
    '"%s" from the new phone is enough',
    async (words) => {
      const { text, codeFor, phonesOf } = await valley();
      await text(NEW, words.replace('{code}', await codeFor(ASHA)));
      expect(await phonesOf(person('asha'))).toEqual([ASHA, NEW]);
    },
  );

  test('a code ties one phone, once', async () => {
    const { text, codeFor, phonesOf } = await valley();
    const code = await codeFor(ASHA);
    await text(NEW, code);
    expect(await text('+447700900702', code)).toMatch(/don't know that code/);
    expect(await phonesOf(person('asha'))).toEqual([ASHA, NEW]);
  });

  test('a code holds for a day, and a newer one takes its place', async () => {
    const { text, codeFor, line } = await valley();
    const old = await codeFor(ASHA);
    const fresh = await codeFor(ASHA);
    expect(await text(NEW, `phone ${old}`)).toMatch(/don't know that code/);
    line.clock.advance(DAY_MS);
    expect(await text(NEW, `phone ${fresh}`)).toMatch(/too old/);
  });

  test('three wrong codes a day, then none till the next', async () => {
    const { text, codeFor, phonesOf, line } = await valley();
    const right = async () => `phone ${await codeFor(ASHA)}`;
    const code = await right();
    for (const guess of ['10000', '10001', '10002']) expect(await text(NEW, guess)).toMatch(/don't know/);
    expect(await text(NEW, code)).toMatch(/^Too many wrong codes today/);
    expect(await phonesOf(person('asha'))).toEqual([ASHA]);
    line.clock.advance(DAY_MS);
    expect(await text(NEW, await right())).toMatch(/^Good, Asha/);
  });

  test('one that has a plot of the same number is refused, with the way out', async () => {
    const { text, codeFor, phonesOf } = await valley();
    const code = await codeFor(ASHA);
    expect(await text(BRAM, `phone ${code}`)).toMatch(/a plot 1 on this phone already.*Ask Valley office/);
    expect(await phonesOf(person('bram'))).toEqual([BRAM]);
    expect(await phonesOf(person('asha'))).toEqual([ASHA]);
  });

  test('is taken away from the first, and gets no more', async () => {
    const { text, phonesOf } = await valley();
    expect(await text(FARID, 'phone')).toMatch(/1 Take away the phone that ends in 016\. 2/);
    expect(await text(FARID, '1')).toMatch(/taken away/);
    expect(await phonesOf(person('farid'))).toEqual([FARID]);
    expect(await text(FARIDS_SECOND, 'next')).toMatch(/^This is the planting line/);
  });

  test('on a shared phone it is asked whose', async () => {
    const { text, phonesOf } = await valley();
    expect(await text(SHARED, 'phone')).toMatch(/^Who is texting\?/);
    const code = /\d{5}/.exec(await text(SHARED, '2'))?.[0] ?? '';
    await text(NEW, code);
    expect(await phonesOf(person('issa'))).toEqual([SHARED, NEW]);
    expect(await phonesOf(person('hana'))).toEqual([SHARED]);
  });

  test('an agent’s is none of this line’s to change, and a stranger is told how', async () => {
    const { text, line } = await valley();
    expect(await text(OFFICE, 'phone')).toMatch(/changed at the office/);
    expect(await text(NEW, 'phone')).toMatch(/text PHONE from your first phone/);
    expect(await line.db.selectFrom('phone_offers').selectAll().execute()).toEqual([]);
  });

  test('the same delivery again ties nothing twice and gets the same answer', async () => {
    const { line, codeFor } = await valley();
    const textIn = { carrierId: 'SM-twice', from: NEW, text: await codeFor(ASHA) };
    const first = await takeText(line, textIn);
    expect(await takeText(line, textIn)).toBe(first);
  });
});

const HALF_A_YEAR_MS = 180 * DAY_MS;
const NEUTRAL = /^Orrowe Valley rice line: do growers of this line still use this phone\? 1 .* 2 /;
const PERSONAL = /Asha|[Pp]lot|clear|Plots/;

describe('a number that may be somebody else’s', () => {
  test('is asked neutrally before anything personal; a yes goes on with what was texted', async () => {
    const { text, line } = await valley();
    await text(ASHA, 'next');
    line.clock.advance(HALF_A_YEAR_MS + HOUR_MS);
    const asked = await text(ASHA, 'cleared 2');
    expect(asked).toMatch(NEUTRAL);
    expect(asked).not.toMatch(PERSONAL);
    expect(await line.db.selectFrom('reports').selectAll().execute()).toEqual([]);
    expect(await text(ASHA, '1')).toMatch(/^Plot 2 cleared/);
    expect(await text(ASHA, 'next')).toMatch(/Plot/);
  });

  test('is not asked a moment before', async () => {
    const { text, line } = await valley();
    await text(ASHA, 'next');
    line.clock.advance(HALF_A_YEAR_MS);
    expect(await text(ASHA, 'plots')).toMatch(/^Plot 1/);
  });

  test.each([
    'next',
    'plots',
    'cleared 1',
    'my name is Zed',
    'forget me',
    'phone',
    'undo',
    'language french',
    'hello',
    'menu',
    '2',
    'start',
  ])('"%s" tells nothing and does nothing to its people', async (words) => {
    const { text, line, phonesOf } = await valley();
    await text(ASHA, 'cleared 1');
    const people = await line.db.selectFrom('people').selectAll().orderBy('id').execute();
    line.clock.advance(200 * DAY_MS);
    expect(await text(ASHA, words)).not.toMatch(PERSONAL);
    expect(await line.db.selectFrom('people').selectAll().orderBy('id').execute()).toEqual(people);
    expect(await line.db.selectFrom('undos').selectAll().execute()).toEqual([]);
    expect(await phonesOf(person('asha'))).toEqual([ASHA]);
  });

  test('who is new gets it without its past, and can join; its people are texted there no more', async () => {
    const { text, line, phonesOf, queued } = await valley();
    await text(ASHA, 'cleared 1');
    line.clock.advance(200 * DAY_MS);
    await text(ASHA, 'hello');
    expect(await text(ASHA, '2')).toMatch(
      /^Then I take the plots of before off this number\. Sure\? 1 No.* 2 Yes/,
    );
    expect(await phonesOf(person('asha'))).toEqual([ASHA]);
    expect(await text(ASHA, '2')).toMatch(/nothing of before.*JOIN/);
    expect(await phonesOf(person('asha'))).toEqual([]);
    expect(await queued(ASHA)).toEqual([]);
    expect(await text(ASHA, 'next')).toMatch(/^This is the planting line/);
    expect(await text(ASHA, 'undo')).toMatch(/^This is the planting line/);
    for (const words of ['JOIN ORROWE', '1', 'Nala', '1', '0.3 ha', '3', '2', '120']) await text(ASHA, words);
    expect(await text(ASHA, '1')).toMatch(/^Welcome, Nala/);
    expect(await text(ASHA, 'plots')).toMatch(/^Plot 1: 0\.3 ha, nothing reported yet/);
    expect(await line.db.selectFrom('reports').selectAll().execute()).toHaveLength(1);
  });

  test.each(['hello 2', 'no', 'No', '2 plots', 'i have 2', 'hapana', 'two', '2 2'])(
    '"%s" takes no plots off the number',
    async (words) => {
      const { text, line, phonesOf } = await valley();
      await text(ASHA, 'next');
      line.clock.advance(200 * DAY_MS);
      await text(ASHA, 'hello');
      for (let round = 0; round < 3; round += 1) await text(ASHA, words);
      expect(await phonesOf(person('asha'))).toEqual([ASHA]);
      expect(await text(ASHA, '1')).not.toMatch(/starts anew|nothing of before/);
      expect(await text(ASHA, 'plots')).toMatch(/^Plot 1/);
    },
  );

  test('what was texted before the question keeps its words', async () => {
    const { text, line } = await valley();
    await text(ASHA, 'next');
    line.clock.advance(200 * DAY_MS);
    await text(ASHA, 'no water in plot 2 since sunday');
    await text(ASHA, '1');
    const kept = await line.db.selectFrom('troubles').select('words').execute();
    expect(kept).toEqual([{ words: 'no water in plot 2 since sunday' }]);
  });

  test('a language is given to the question too, and START brings texts back without telling anything', async () => {
    const { text, line } = await valley();
    await text(ASHA, 'stop');
    line.clock.advance(200 * DAY_MS);
    expect(await text(ASHA, 'start')).toMatch(NEUTRAL);
    const phones = line.db.selectFrom('phones').select('stopped').where('number', '=', ASHA);
    expect(await phones.execute()).toEqual([{ stopped: 0 }]);
    expect(await text(ASHA, 'FRANCAIS')).toMatch(/^Ligne du riz/);
  });

  test('an agent’s number is not let go by text', async () => {
    const { text, line, phonesOf } = await valley();
    await text(OFFICE, 'ready upper');
    line.clock.advance(200 * DAY_MS);
    await text(OFFICE, 'hello');
    expect(await text(OFFICE, '2')).toMatch(/changed at the office/);
    expect(await phonesOf(person('office'))).toEqual([OFFICE]);
  });

  test('whoever only dials is asked after half a year too', async () => {
    const { text, line } = await valley();
    const dial = (sessionId: string) =>
      takeHit(line, { phone: ASHA, sessionId, input: '', hitId: null } as never);
    expect((await dial('a')).ends).toBe(false);
    line.clock.advance(181 * DAY_MS);
    expect(await text(ASHA, 'next')).toMatch(NEUTRAL);
  });

  test('STOP holds at once', async () => {
    const { text, line } = await valley();
    await text(ASHA, 'next');
    line.clock.advance(200 * DAY_MS);
    expect(await text(ASHA, 'stop')).toMatch(/no more texts/);
  });

  test('a carrier that calls it out of service is reason enough', async () => {
    const { text, line } = await valley();
    await text(ASHA, 'next');
    await line.together((trx) => noteNumber(trx, line, ASHA, 'gone'));
    expect(await text(ASHA, 'next')).toMatch(NEUTRAL);
    expect(await text(ASHA, 'next')).toMatch(NEUTRAL);
    await text(ASHA, '1');
    expect(await text(ASHA, 'plots')).toMatch(/^Plot 1/);
  });

  test('a language that was asked for is still given after the yes', async () => {
    const { text, line } = await valley();
    await text(ASHA, 'next');
    line.clock.advance(200 * DAY_MS);
    await text(ASHA, 'language french');
    expect(await text(ASHA, '1')).toMatch(/^Bien: en francais/);
  });

  test('a shared phone is asked whose it is, then who texts', async () => {
    const { text, line } = await valley();
    await text(SHARED, 'menu');
    line.clock.advance(200 * DAY_MS);
    expect(await text(SHARED, 'next')).toMatch(NEUTRAL);
    expect(await text(SHARED, '1')).toMatch(/^Who is texting\? 1 Hana\. 2 Issa/);
    expect(await text(SHARED, '2')).toMatch(/Plot 2/);
  });

  test('screens lead to a text', async () => {
    const { text, line } = await valley();
    await text(ASHA, 'next');
    line.clock.advance(200 * DAY_MS);
    const hit = { phone: ASHA, sessionId: 's', input: '', hitId: null };
    const shown = await takeHit(line, hit as never);
    expect(shown).toMatchObject({ ends: true, text: expect.stringMatching(/^Please text NEXT/) });
  });

  test('an agent’s number moves a whole scheme: a yes is not enough, the agent’s name is', async () => {
    const { text, line } = await valley();
    await text(OFFICE, 'ready upper');
    line.clock.advance(200 * DAY_MS);
    expect(await text(OFFICE, 'ready upper')).toMatch(NEUTRAL);
    expect(await text(OFFICE, '1')).toMatch(/full name/);
    expect(await text(OFFICE, 'ready upper')).toMatch(/not the name/);
    expect(await text(OFFICE, 'Valley  OFFICE')).toMatch(/^Good/);
    expect(await text(OFFICE, 'ready upper')).toMatch(/^Upper/);
  });

  test('an agent’s name can be guessed three times a day', async () => {
    const { text, line } = await valley();
    await text(OFFICE, 'ready upper');
    line.clock.advance(200 * DAY_MS);
    await text(OFFICE, 'ready');
    await text(OFFICE, '1');
    for (const guess of ['Kim', 'the office', 'agent'])
      expect(await text(OFFICE, guess)).toMatch(/not the name/);
    expect(await text(OFFICE, 'Valley office')).toMatch(/^Too many/);
    expect(await text(OFFICE, 'ready')).toMatch(/^Too many/);
    line.clock.advance(DAY_MS);
    await text(OFFICE, 'ready upper');
    await text(OFFICE, '1');
    expect(await text(OFFICE, 'Valley office')).toMatch(/^Good/);
  });

  test('one that answers everything with 1 falls silent', async () => {
    const { text, line } = await valley();
    await text(OFFICE, 'ready upper');
    line.clock.advance(200 * DAY_MS);
    const answers: string[] = [];
    for (let round = 0; round < 40; round += 1) answers.push(await text(OFFICE, '1'));
    expect(answers.filter((answer) => answer !== '').length).toBeLessThan(12);
  });
});

describe('reminders to a number that was silent for long', () => {
  /** At 17:00 in the valley, when reminders go out. */
  const EVENING_MS = Date.parse('2027-03-10T17:30:00Z');

  test('the neutral question goes instead, once a week, and a yes brings the next step', async () => {
    const { text, line, queued } = await valley();
    await text(ASHA, 'plots');
    line.clock.set(EVENING_MS + 190 * DAY_MS);
    await sweepReminders(line);
    const [asked, ...others] = await queued(ASHA);
    expect(others).toEqual([]);
    expect(asked?.text).toMatch(NEUTRAL);
    expect(asked?.text).not.toMatch(PERSONAL);
    line.clock.advance(DAY_MS);
    await sweepReminders(line);
    line.clock.advance(8 * DAY_MS);
    await sweepReminders(line);
    expect((await queued(ASHA)).map(({ text: one }) => NEUTRAL.test(one))).toEqual([true, true]);
    expect(await text(ASHA, '1')).toMatch(/[Pp]lot/);
  });

  test('the agent sees whose reminders wait', async () => {
    const { text, line } = await valley();
    await text(ASHA, 'plots');
    line.clock.set(EVENING_MS + 190 * DAY_MS);
    expect(await text(OFFICE, 'stopped upper')).toMatch(/3 plots get no texts: U-1 Asha: silent for long/);
    await text(ASHA, 'hello');
    await text(ASHA, '1');
    expect(await text(OFFICE, 'stopped upper')).toBe('Everybody takes texts.');
  });

  test('one who only reads is asked after half a year too, not before', async () => {
    const { line, queued } = await valley();
    line.clock.set(EVENING_MS);
    for (let day = 0; day <= 3; day += 1) {
      await sweepReminders(line);
      line.clock.advance(DAY_MS);
    }
    const first = await queued(BRAM);
    expect(first.length).toBeGreaterThan(0);
    expect(first.some(({ text }) => NEUTRAL.test(text))).toBe(false);
    line.clock.advance(181 * DAY_MS);
    await sweepReminders(line);
    expect((await queued(BRAM)).filter(({ text }) => NEUTRAL.test(text))).toHaveLength(1);
  });
});
