/** One-time codes: what they open, and what does not open them. */
import { describe, expect, onTestFinished, test } from 'vitest';
import { ASHA, agentLine, codeIn, OFFICE, SECRETARY } from '../../support/agent-line.ts';

const TELL = 'tell upper: gate 3 is closed on friday';
const broadcasts = async ({ line }: Awaited<ReturnType<typeof agentLine>>) =>
  (await line.db.selectFrom('broadcasts').select('id').execute()).length;

test('the preview names people, texts, parts and cost; nothing goes out before the code', async () => {
  const agent = await agentLine(onTestFinished);
  const preview = await agent.say(OFFICE, TELL);
  expect(preview).toContain('People 4, texts 4, parts 4, about 0.16 GBP');
  expect(await agent.sent()).toEqual([]);
  expect(await agent.say(OFFICE, codeIn(preview))).toMatch(/^Good/);
  expect(await agent.sent()).toHaveLength(4);
});

test('a code works once', async () => {
  const agent = await agentLine(onTestFinished);
  const code = codeIn(await agent.say(OFFICE, TELL));
  await agent.say(OFFICE, code);
  expect(await agent.say(OFFICE, code)).toMatch(/^No code is open/);
  expect(await broadcasts(agent)).toBe(1);
});

test('the same delivery of the code again sends nothing again', async () => {
  const agent = await agentLine(onTestFinished);
  const code = codeIn(await agent.say(OFFICE, TELL));
  const { takeText } = await import('../../../src/web/take-text.ts');
  const delivery = { carrierId: 'same', from: OFFICE, text: code };
  const first = await takeText(agent.line, delivery);
  expect(await takeText(agent.line, delivery)).toBe(first);
  expect(await broadcasts(agent)).toBe(1);
});

test('it holds for half an hour', async () => {
  const agent = await agentLine(onTestFinished);
  const code = codeIn(await agent.say(OFFICE, TELL));
  agent.wait(30);
  expect(await agent.say(OFFICE, code)).toMatch(/too old/);
  expect(await broadcasts(agent)).toBe(0);
});

test('a minute before it still does', async () => {
  const agent = await agentLine(onTestFinished);
  const code = codeIn(await agent.say(OFFICE, TELL));
  agent.wait(29);
  expect(await agent.say(OFFICE, code)).toMatch(/^Good/);
});

test('it works from the phone that the preview went to, and from no other', async () => {
  const agent = await agentLine(onTestFinished);
  const code = codeIn(await agent.say(OFFICE, TELL));
  for (const other of [SECRETARY, ASHA, '+447700900777'])
    expect(await agent.say(other, code)).not.toMatch(/^Good/);
  expect(await broadcasts(agent)).toBe(0);
  expect(await agent.say(OFFICE, code)).toMatch(/^Good/);
});

test('a newer preview has a code of its own; the older one opens nothing', async () => {
  const agent = await agentLine(onTestFinished);
  const older = codeIn(await agent.say(OFFICE, TELL));
  const newer = codeIn(await agent.say(OFFICE, 'tell middle: meeting on monday'));
  expect(newer).not.toBe(older);
  expect(await agent.say(OFFICE, older)).toMatch(/^That code is of an older order/);
  expect(await agent.say(OFFICE, newer)).toMatch(/^Good/);
  expect((await agent.sent()).every((text) => text.includes('meeting'))).toBe(true);
});

test('an older order’s code costs no try', async () => {
  const agent = await agentLine(onTestFinished);
  const older = codeIn(await agent.say(OFFICE, TELL));
  const newer = codeIn(await agent.say(OFFICE, 'tell middle: meeting on monday'));
  for (let times = 0; times < 7; times++) await agent.say(OFFICE, older);
  expect(await agent.say(OFFICE, newer)).toMatch(/^Good/);
});

test.each(['forget me', 'my name is Boss'])('whoever forges the number cannot do "%s"', async (text) => {
  const agent = await agentLine(onTestFinished);
  await agent.say(OFFICE, text);
  await agent.say(OFFICE, '1');
  const { name, forgotten } = await agent.line.db
    .selectFrom('people')
    .selectAll()
    .where('id', '=', 'orrowe-valley/office')
    .executeTakeFirstOrThrow();
  expect([name, forgotten]).toEqual(['Valley office', 0]);
});

test.each(['asha', 'Asha', 'Acha!'])('%s', async (text) => {
  const agent = await agentLine(onTestFinished);
  await agent.say(OFFICE, text);
  const { stopped } = await agent.line.db
    .selectFrom('phones')
    .selectAll()
    .where('number', '=', OFFICE)
    .executeTakeFirstOrThrow();
  // A name is no word of a slip; the word itself ends the texts.
  expect(stopped).toBe(text === 'Acha!' ? 1 : 0);
});

test('questions between the preview and the code do no harm', async () => {
  const agent = await agentLine(onTestFinished);
  const code = codeIn(await agent.say(OFFICE, TELL));
  await agent.say(OFFICE, 'late upper');
  await agent.say(OFFICE, 'plot U-7');
  await agent.say(OFFICE, 'thanks');
  expect(await agent.say(OFFICE, `CODE ${code}`)).toMatch(/^Good/);
});

describe('guessing', () => {
  test('three wrong codes end the preview, six in a day end all codes till the next', async () => {
    const agent = await agentLine(onTestFinished);
    const first = codeIn(await agent.say(OFFICE, TELL));
    for (const guess of ['11111', '22222', '33333']) await agent.say(OFFICE, guess);
    expect(await agent.say(OFFICE, first)).toMatch(/^No code is open/);
    const second = codeIn(await agent.say(OFFICE, TELL));
    for (const guess of ['11111', '22222', '33333']) await agent.say(OFFICE, guess);
    expect(await agent.say(OFFICE, second)).toMatch(/^Too many wrong codes/);
    expect(codeIn(await agent.say(OFFICE, TELL))).toBe('');
    expect(await broadcasts(agent)).toBe(0);
    agent.wait(24 * 60);
    expect((await agent.order(OFFICE, TELL)).done).toMatch(/^Good/);
  });

  test('a short number is no code and is not counted', async () => {
    const agent = await agentLine(onTestFinished);
    const code = codeIn(await agent.say(OFFICE, TELL));
    for (const text of ['1', '2', '3', '4']) await agent.say(OFFICE, text);
    expect(await agent.say(OFFICE, code)).toMatch(/^Good/);
  });
});

test('who did what, and when, is kept; what was only previewed is not', async () => {
  const agent = await agentLine(onTestFinished);
  await agent.say(OFFICE, TELL);
  await agent.order(OFFICE, 'move U-7 to middle');
  const acts = await agent.line.db.selectFrom('agent_acts').selectAll().execute();
  expect(acts).toMatchObject([
    { person_id: 'orrowe-valley/office', act: 'people', done_ms: Date.parse('2027-03-10T08:00:00Z') },
  ]);
});
