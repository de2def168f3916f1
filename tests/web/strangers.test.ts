/** Numbers that nobody has, in a scheme of several languages: they are answered in the one that they text in. */
import { readFileSync } from 'node:fs';
import { expect, onTestFinished, test } from 'vitest';
import { readVoices } from '../../src/sweeps/read-voices.ts';
import { realTalk } from '../../src/sweeps/real-talk.ts';
import { takeText } from '../../src/web/take-text.ts';
import { testLine } from '../support/test-line.ts';

const DEMO = readFileSync(new URL('../../scripts/demo/orrowe-valley.yaml', import.meta.url), 'utf8');
const STRANGER = '+447700900077';
const voices = readVoices();

/** A stranger's phone: answers of the real line to its texts. */
async function stranger() {
  const line = await testLine(onTestFinished, { talk: realTalk, voices, schemeText: DEMO });
  let count = 0;
  const text = async (words: string) => {
    count += 1;
    return (await takeText(line, { carrierId: `SM${count}`, from: STRANGER, text: words })) ?? '';
  };
  const lang = async () =>
    (
      await line.db
        .selectFrom('people')
        .innerJoin('phone_people', 'phone_people.person_id', 'people.id')
        .where('phone', '=', STRANGER)
        .select('lang')
        .executeTakeFirst()
    )?.lang;
  return { text, lang };
}

test.each([
  ['en', 'hello who is this', /^This is the planting line/],
  ['fr', "bonjour c'est qui", /^Ici la ligne du riz/],
  ['sw', 'habari, hii ni nani', /^Hii ni huduma/],
  ['bn', 'ভাই আপনি কে', /^এটা/],
  ['nobody', 'zzzz', /^This is the planting line/],
  ['a number', '12', /^This is the planting line/],
])('in %s', async (_, words, answer) => {
  const { text } = await stranger();
  expect(await text(words)).toMatch(answer);
});

test.each([
  ['en', 'JOIN ORROWE', /^Welcome/],
  ['fr', 'REJOINDRE ORROWE', /^Bienvenue/],
  ['sw', 'JIUNGE ORROWE', /^Karibu/],
  ['bn', 'JOG ORROWE', /^স্বাগতম/],
])(
  'who joins in %s is kept and answered so, whatever the numbers and names between',
  async (own, words, welcomed) => {
    const { text, lang } = await stranger();
    await text(words);
    for (const answer of ['1', 'Nala', '1', '0.3 ha', '3', '2', '120']) await text(answer);
    const welcome = await text('1');
    expect(await lang()).toBe(own);
    expect(welcome).toMatch(welcomed);
  },
);

test('who first greets in one language and joins in another is answered in the later one', async () => {
  const { text } = await stranger();
  expect(await text('hello who is this')).toMatch(/^This is/);
  expect(await text('REJOINDRE ORROWE')).toMatch(/^Ligne Orrowe Valley/);
  expect(await text('?')).toMatch(/^Ligne Orrowe Valley/);
  expect(await text('JIUNGE ORROWE')).toMatch(/^Huduma ya Orrowe Valley/);
});
