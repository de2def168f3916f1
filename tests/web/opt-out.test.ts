/** STOP over the whole line: in each language, for the number and not the person, confirmed once, kept with its words. */
import { describe, expect, onTestFinished, test } from 'vitest';
import { readVoices } from '../../src/sweeps/read-voices.ts';
import { realTalk } from '../../src/sweeps/real-talk.ts';
import { sweepBroadcasts } from '../../src/sweeps/sweep-broadcasts.ts';
import { sweepOutbox } from '../../src/sweeps/sweep-outbox.ts';
import { takeText } from '../../src/web/take-text.ts';
import { agentLine, codeIn, DEMBE, OFFICE } from '../support/agent-line.ts';
import { sendBroadcast, wordsOf } from '../support/broadcasts.ts';
import { outboxRows, queueNow } from '../support/carried-line.ts';
import { NOON_MS, type TestLine, testLine } from '../support/test-line.ts';
import { ANN, BEN, BEN_AT_HOME, CYN_AND_DAN, STRANGER, VALLEY } from '../support/valley-scheme.ts';
import { postForm, smsForm, startWeb } from '../support/webhook.ts';

const LANGUAGES = ['en', 'fr', 'sw', 'bn'];
const voices = readVoices();
const said = (lang: string, key: string) =>
  voices.find((voice) => voice.lang === lang)?.say({ sentences: [{ key }] }) ?? '';

/** The valley in four languages; Ann's is `lang`. */
async function valley(lang = 'en') {
  const schemeText = VALLEY.replace('[en]', `[${LANGUAGES.join(', ')}]`).replace(
    'Ann, lang: en',
    `Ann, lang: ${lang}`,
  );
  const line = await testLine(onTestFinished, { talk: realTalk, voices, schemeText });
  let count = 0;
  const text = (words: string, from = ANN) => {
    count += 1;
    return takeText(line, { carrierId: `SM${count}`, from, text: words });
  };
  return { line, text };
}

const consents = ({ db }: TestLine) =>
  db
    .selectFrom('consents')
    .select(['phone', 'person_id', 'kind', 'words', 'lang', 'said_ms'])
    .orderBy('id')
    .execute();
const isStopped = async ({ db }: TestLine, number: string) =>
  (await db.selectFrom('phones').select('stopped').where('number', '=', number).executeTakeFirst())
    ?.stopped === 1;

/** One request in each language, with none of the carriers' words. */
const REQUESTS = [
  "please don't text me again",
  "ne m'écrivez plus svp",
  'msinitumie meseji tena',
  'আর মেসেজ পাঠাবেন না',
];
const WORDS = ['STOP', 'End.', 'arrêt', 'DÉSABONNER', 'Simamisha', 'SITAKI', 'বন্ধ', 'থামুন', ...REQUESTS];

describe.each(LANGUAGES)('a phone in %s', (lang) => {
  test('each word is confirmed once in its own language and kept; START brings the texts back each time', async () => {
    const { line, text } = await valley(lang);
    for (const words of WORDS) {
      expect(await text(words), words).toBe(said(lang, 'account.stopped'));
      expect(await text(words), words).toBeNull();
      expect(await isStopped(line, ANN)).toBe(true);
      expect(await text('START')).toBe(said(lang, 'account.started'));
      expect(await isStopped(line, ANN)).toBe(false);
    }
    const kept = await consents(line);
    expect(kept.map(({ kind, words }) => [kind, words])).toEqual(
      WORDS.flatMap((words) => [
        ['stopped', words],
        ['started', 'START'],
      ]),
    );
    for (const row of kept) expect(row).toMatchObject({ phone: ANN, person_id: null, said_ms: NOON_MS });
    expect(kept[0]).toMatchObject({ words: 'STOP', lang });
    for (const row of kept) expect(LANGUAGES).toContain(row.lang);
  });
});

/** Orders about work, water and weather in the words of one language, and names that are such words in another. */
const NO_OPT_OUTS = [
  ...['rain', 'train', 'drain', 'flood', 'flow', 'plough', 'spray', 'grain', 'pump', 'canal'].flatMap(
    (word) => [`stop ${word}`, `END ${word}`, `cancel ${word}`, `quit ${word}`],
  ),
  ...['pompe', 'eau', 'pluie', 'maji', 'mvua', 'pampu', 'পানি', 'পাম্প', 'pani'].flatMap((word) => [
    `stop ${word}`,
    `STOP, ${word.slice(0, 1).toUpperCase()}${word.slice(1)}`,
    `Stop\n${word.toUpperCase()}`,
  ]),
  'cancel report',
];

test.each(LANGUAGES)('on a phone in %s no order about work or water ends the texts', async (lang) => {
  const { line, text } = await valley(lang);
  for (const words of NO_OPT_OUTS) {
    await text(words);
    expect(await isStopped(line, ANN), words).toBe(false);
  }
});

test.each(LANGUAGES)('on a phone in %s names and single letters end them all the same', async (lang) => {
  const { line, text } = await valley(lang);
  for (const words of [
    'STOP, Asha',
    'S T O P',
    's.t.o.p.',
    'unsuscribe',
    'stop reminding me',
    'STOP\n- Dembe',
  ]) {
    expect(await text(words), words).toBe(said(lang, 'account.stopped'));
    await text('START');
    expect(await isStopped(line, ANN)).toBe(false);
  }
});

test.each([
  ['how do i stop these texts', 'STOP'],
  ['comment arrêter ces messages', 'STOP'],
  ['nawezaje kusimamisha meseji', 'STOP'],
  ['মেসেজ কিভাবে বন্ধ করব', 'STOP'],
])('"%s" is told the word, and ends nothing', async (words, told) => {
  const { line, text } = await valley();
  expect(await text(words)).toContain(told);
  expect(await isStopped(line, ANN)).toBe(false);
});

test('a stranger is taken at each word too; YES of one who has stopped nothing is no opt-in', async () => {
  const { line, text } = await valley();
  await text('YES', STRANGER);
  expect(await consents(line)).toEqual([]);
  for (const words of WORDS) {
    await text(words, STRANGER);
    expect(await isStopped(line, STRANGER), words).toBe(true);
    await text('START', STRANGER);
    expect(await isStopped(line, STRANGER)).toBe(false);
  }
});

test('takes back all that is queued for the number, and nothing of others', async () => {
  const { line, text } = await valley();
  const kinds = [
    'reminder',
    'broadcast:b',
    'digest',
    'delivered',
    'text:b',
    'again:broadcast:b',
    'again:reminder',
  ];
  for (const kind of kinds) {
    await queueNow(line, `${kind}:${ANN}`, ANN, { inMs: 1000 });
    await queueNow(line, `${kind}:${BEN}`, BEN, { inMs: 1000 });
  }
  await text('stop');
  line.clock.advance(2000);
  expect(await sweepOutbox(line)).toBe(kinds.length);
  const rows = await outboxRows(line);
  expect(rows.filter(({ phone }) => phone === ANN).map(({ state, why }) => `${state} ${why}`)).toEqual(
    kinds.map(() => 'failed opted-out'),
  );
  expect(rows.filter(({ phone }) => phone === BEN).every(({ state }) => state === 'handed')).toBe(true);
});

test('a broadcast that is not queued yet passes by the number, and all who share it, but not another phone of the person', async () => {
  const { line, text } = await valley();
  await sendBroadcast(line.db, 'b', wordsOf('canal closed'));
  for (const phone of [BEN, CYN_AND_DAN]) await text('stop', phone);
  await sweepBroadcasts(line);
  expect((await outboxRows(line)).map(({ phone }) => phone).toSorted()).toEqual([ANN, BEN_AT_HOME]);
});

test('a stopped number is answered: help, questions and their answers, and reports', async () => {
  const { line, text } = await valley();
  const help = await text('HELP');
  await text('stop');
  for (const words of ['HELP', 'info']) expect(await text(words)).toBe(help);
  expect(await text('ploughed 1')).toContain('ploughed');
  expect(await isStopped(line, ANN)).toBe(true);
});

test('what the carrier has done itself is followed without a word, and kept once', async () => {
  const { line, text } = await valley();
  const { url } = await startWeb(line, onTestFinished);
  await text('ploughed');
  const carrierDid = async (id: string, words: string, OptOutType: string) =>
    (await postForm(url, { ...smsForm(id, ANN, words), OptOutType })).text !== null;
  expect(await carrierDid('S1', 'quit', 'STOP')).toBe(false);
  expect(await carrierDid('S2', 'quit', 'STOP')).toBe(false);
  expect(await carrierDid('S3', 'aide', 'HELP')).toBe(false);
  expect(await isStopped(line, ANN)).toBe(true);
  expect(await text('1')).toBe(said('en', 'choice.no-question'));
  expect(await carrierDid('S4', 'yes', 'START')).toBe(false);
  expect(await isStopped(line, ANN)).toBe(false);
  expect(await consents(line)).toMatchObject([
    { kind: 'stopped', words: 'quit' },
    { kind: 'started', words: 'yes' },
  ]);
});

describe('an agent', () => {
  test.each(['STOP', 'cancel', 'end'])(
    'who texts %s before the code sends nothing by the code afterwards',
    async (word) => {
      const agent = await agentLine(onTestFinished);
      const code = codeIn(await agent.say(OFFICE, 'tell upper: come on friday'));
      expect(code).toMatch(/^\d{5}$/);
      expect(await agent.say(OFFICE, word)).toBe(said('en', 'account.stopped'));
      await agent.say(OFFICE, code);
      expect(await agent.sent()).toEqual([]);
    },
  );

  test('cannot text a number that has stopped by giving it a grower', async () => {
    const agent = await agentLine(onTestFinished);
    await agent.say('+447700900050', 'stop');
    const { done } = await agent.order(OFFICE, 'add 07700900050 Maria, upper, 0.4 ha');
    expect(done).toMatch(/^Done/);
    expect(await agent.sent()).toEqual([]);
  });
});

describe.each([
  ['en', 'stopped'],
  ['fr', 'qui a arrete'],
  ['sw', 'walioacha'],
  ['bn', 'কারা বন্ধ করেছে'],
])('who has stopped, asked in %s', (lang, words) => {
  const speaking = (scheme: string) => scheme.replaceAll('lang: en', `lang: ${lang}`);

  test('nobody; then whoever has', async () => {
    const agent = await agentLine(onTestFinished, speaking);
    expect(await agent.say(OFFICE, words)).toBe(said(lang, 'stopped.nobody'));
    await agent.say(DEMBE, 'stop');
    const some = await agent.say(OFFICE, words);
    expect(some).toContain('Dembe');
    expect(some).not.toContain('Asha');
    await agent.say(DEMBE, 'START');
    expect(await agent.say(OFFICE, words)).toBe(said(lang, 'stopped.nobody'));
  });

  test('all of them: page by page by MORE, nobody left out', async () => {
    const agent = await agentLine(onTestFinished, speaking);
    const phones = agent.line.db.selectFrom('phones').select('number').where('number', '!=', OFFICE);
    for (const { number } of await phones.execute()) await agent.say(number, 'stop');
    const plots = await agent.line.db.selectFrom('plots').select('label').execute();
    let page = await agent.say(OFFICE, words);
    const pages = [page];
    while (/MORE|SUITE|VOIR|ZAIDI|আরও/i.test(page) && pages.length < 20) {
      expect(agent.fits(page)).toBe(true);
      page = await agent.say(OFFICE, 'more');
      pages.push(page);
    }
    const told = pages.join(' ');
    expect(plots.length).toBeGreaterThan(5);
    for (const { label } of plots) expect(told).toContain(label ?? 'no label');
  });
});
