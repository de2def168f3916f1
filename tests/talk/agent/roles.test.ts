/** Who may do what: agents of a scheme, agents of a block, growers, strangers. */
import { describe, expect, onTestFinished, test } from 'vitest';
import { ASHA, agentLine, OFFICE, SECRETARY } from '../../support/agent-line.ts';

const COMMANDS = [
  'flood block upper',
  'flood block upper 14 march',
  'tell block upper: come on friday',
  'late block upper',
  'ready block upper',
  'turns block upper',
  'tiller block upper',
  'add +447700900050 Maria block upper 0.4 ha',
  'block upper late?',
];
const ONLY_AGENTS = ['move plot U-7 to lower', 'remove plot U-7', 'digest', 'stopped', 'code 10101', '10101'];

describe('a grower', () => {
  test.each([...COMMANDS, ...ONLY_AGENTS])('cannot do "%s"', async (text) => {
    const agent = await agentLine(onTestFinished);
    const answer = await agent.say(ASHA, text);
    expect(answer).not.toMatch(/people|code \d|Dembe|U-7 |Done/);
    expect(await agent.line.db.selectFrom('broadcasts').selectAll().execute()).toEqual([]);
    expect(await agent.line.db.selectFrom('reports').selectAll().execute()).toEqual([]);
  });

  test('is told whose it is', async () => {
    const agent = await agentLine(onTestFinished);
    expect(await agent.say(ASHA, 'late block upper')).toMatch(/^Only an agent.*Valley office/);
  });
});

test.each(COMMANDS)('a stranger gets nothing of "%s"', async (text) => {
  const agent = await agentLine(onTestFinished);
  expect(await agent.say('+447700900777', text)).toContain('This is the planting line');
});

describe('an agent of one block', () => {
  test('has its plots', async () => {
    const agent = await agentLine(onTestFinished);
    expect(await agent.say(SECRETARY, 'ready')).toMatch(/^Lower: 7 plots/);
    expect(await agent.say(SECRETARY, 'plot L-3')).toContain('Kofi');
  });

  test.each(['flood upper 14 march', 'late upper', 'tell middle: come', 'turns upper'])(
    'cannot do "%s"',
    async (text) => {
      const agent = await agentLine(onTestFinished);
      expect(await agent.say(SECRETARY, text)).toBe(
        'Which block? Yours: Lower. Text it again with the block.',
      );
    },
  );

  test('sees no plot of another block, and moves none', async () => {
    const agent = await agentLine(onTestFinished);
    expect(await agent.say(SECRETARY, 'plot U-7')).toBe('I know no plot U-7 in your blocks.');
    expect(await agent.say(SECRETARY, 'remove plot U-7')).toBe('I know no plot U-7 in your blocks.');
    expect(await agent.say(SECRETARY, 'move L-3 to upper')).toMatch(/^Which block\? Yours: Lower/);
  });

  test('tells all of its growers and nobody else', async () => {
    const agent = await agentLine(onTestFinished);
    await agent.order(SECRETARY, 'tell all: come on friday');
    const phones = (await agent.sent()).map((text) => text.slice(0, 3));
    expect(phones).toEqual(['009', '010', '011']);
  });
});

test('work is reported by growers: an agent, whom a forged sender may be, writes none down for them', async () => {
  const agent = await agentLine(onTestFinished);
  expect(await agent.say(OFFICE, 'ploughed plot U-7')).toContain('Dembe');
  expect(await agent.line.db.selectFrom('reports').selectAll().execute()).toEqual([]);
});

test('sums and dates of a plot can be asked for by its name', async () => {
  const agent = await agentLine(onTestFinished);
  expect(await agent.say(OFFICE, 'dates plot U-7')).toMatch(/^Plot U-7: /);
  expect(await agent.say(OFFICE, 'seed plot U-7')).toMatch(/^Plot U-7, 0.6 ha: /);
  expect(agent.faults).toEqual([]);
});
