/** What an agent is answered: the best day, turns, the shared team, who is late, people; and what each grower is then told. */
import { describe, expect, onTestFinished, test } from 'vitest';
import { parseDay } from '../../../src/plan/day.ts';
import { sweepReminders } from '../../../src/sweeps/sweep-reminders.ts';
import {
  type AgentLine,
  ASHA,
  agentLine,
  codeIn,
  DEMBE,
  OFFICE,
  SECRETARY,
} from '../../support/agent-line.ts';

const SMALL = (scheme: string) =>
  scheme.replace('litresPerSecond: 12, efficiency: 0.8', 'litresPerSecond: 2, efficiency: 0.8');

describe('water', () => {
  test('each grower is told the turns of the own plots; then only what changes', async () => {
    const agent = await agentLine(onTestFinished);
    await agent.order(OFFICE, 'flood upper 14 march');
    const first = await agent.sent();
    expect(first.map((text) => text.slice(0, 3))).toEqual(['001', '002', '003', '004']);
    expect(first[0]).toMatch(/Plot 1: your water turn for flooding is Sun 14 Mar morning.*Plot 3: /);
    expect(await agent.say(OFFICE, 'flood upper 14 march')).toMatch(/^Nothing in Upper changes/);
    // One plot is flooded already: the others move up, and only they are told.
    for (const text of ['ploughed plot 2, 9 march', 'flooded plot 2 today']) await agent.say(DEMBE, text);
    const { preview } = await agent.order(OFFICE, 'flood upper 15 march');
    expect(preview).toContain('People 4, texts 4');
    const moved = await agent.sent();
    expect(moved.find((text) => text.startsWith('004'))).toMatch(/^004: Plot 1: your water turn has changed/);
    expect(moved.find((text) => text.startsWith('004'))).not.toContain('Plot 2');
  });

  test('a correction within the same day before anything went out is told once, as news', async () => {
    const agent = await agentLine(onTestFinished);
    await agent.order(OFFICE, 'flood upper 14 march');
    await agent.order(OFFICE, 'flood upper 16 march');
    const texts = (await agent.sent()).filter((text) => text.startsWith('001'));
    expect(texts.at(-1)).toContain('Tue 16 Mar');
    expect(texts.join()).not.toContain('Sun 14 Mar');
  });

  test('the turn is in the plot’s plan, and WHY tells it', async () => {
    const agent = await agentLine(onTestFinished);
    await agent.order(OFFICE, 'flood upper 20 march');
    await agent.sent();
    for (const text of ['cleared plot 1', 'soaked plot 1', 'ploughed plot 1, 10 march'])
      await agent.say(ASHA, text);
    expect(await agent.say(ASHA, 'dates plot 1')).toContain('flooding Sat 20 Mar');
    expect(await agent.say(ASHA, 'why flood plot 1')).toContain('the canal has a turn for each plot');
  });

  test('a canal that is too small is told with its lack and the plots of a first round; the rest get no turn', async () => {
    const agent = await agentLine(onTestFinished, SMALL);
    const { preview } = await agent.order(OFFICE, 'flood upper 14 march');
    const found = /(\d+(?:\.\d)?) l\/s too small: (\d) of 8 plots/.exec(preview);
    expect(Number(found?.[1])).toBeGreaterThan(0);
    const inRound = Number(found?.[2]);
    expect(inRound).toBeLessThan(8);
    const turns = await agent.line.db.selectFrom('appointments').selectAll().execute();
    expect(turns.filter(({ visit }) => visit !== null)).toHaveLength(inRound);
  });

  test('a day that is past is refused', async () => {
    const agent = await agentLine(onTestFinished);
    expect(await agent.say(OFFICE, 'flood upper 1 march')).not.toMatch(/code/);
  });
});

/** The day on which the team comes, by plot. */
async function startDays({ line }: AgentLine): Promise<ReadonlyMap<string, number>> {
  const rows = await line.db.selectFrom('appointments').selectAll().where('kind', '=', 'team').execute();
  return new Map(rows.map(({ plot_id, visit }) => [plot_id, JSON.parse(visit ?? '').start.day as number]));
}

describe('the shared tractor', () => {
  test('a breakdown moves and tells only those whom it must', async () => {
    const agent = await agentLine(onTestFinished);
    await agent.order(OFFICE, 'tiller upper 12 march');
    const first = await agent.sent();
    expect(first.map((text) => text.slice(0, 3))).toEqual(['001', '002', '003', '004']);
    const before = await startDays(agent);
    // Asha's plots, which come first, are ploughed before it breaks.
    agent.wait(3 * 24 * 60);
    await agent.say(ASHA, 'ploughed plots 1, 2 and 3');
    const { preview, done } = await agent.order(OFFICE, 'the tractor is broken until 18 march');
    expect(preview).toMatch(/^Tractor, ploughing: \d plots from/);
    expect(done).toMatch(/^Good/);
    const moved = (await agent.sent()).filter((text) => !text.startsWith('990'));
    for (const text of moved) expect(text).toContain('on another day');
    const after = await startDays(agent);
    const changed = [...after].filter(([plot, day]) => before.get(plot) !== day);
    expect(changed.length).toBeGreaterThan(0);
    for (const [plot, day] of changed) {
      expect(plot).not.toMatch(/u[123]$/);
      expect(day).toBeGreaterThanOrEqual(parseDay('2027-03-18')!);
    }
    const owners = await agent.line.db
      .selectFrom('plots')
      .innerJoin('phone_people', 'phone_people.person_id', 'plots.owner_id')
      .select('phone_people.phone')
      .distinct()
      .where(
        'plots.id',
        'in',
        changed.map(([plot]) => plot),
      )
      .execute();
    expect(moved.map((text) => text.slice(0, 3)).sort()).toEqual(
      owners.map(({ phone }) => phone.slice(-3)).sort(),
    );
  });

  test('without an end it is asked for', async () => {
    const agent = await agentLine(onTestFinished);
    expect(await agent.say(OFFICE, 'the tractor is broken')).toMatch(/^Tractor broken: until when\?/);
  });

  test('of several teams the one that is named', async () => {
    const agent = await agentLine(onTestFinished);
    expect(await agent.say(OFFICE, 'machine broken until 18 march')).toMatch(/^Which one\? Tractor and Oxen/);
    expect(await agent.say(SECRETARY, 'tiller')).toMatch(/^No shared tractor/);
  });
});

describe('who is late', () => {
  test('those first who hold the block back most, with their phones; a grower’s plots in one line', async () => {
    const agent = await agentLine(onTestFinished);
    agent.wait(10 * 24 * 60);
    for (const text of ['cleared plots 1, 2 and 3', 'soaked plots 1, 2 and 3']) await agent.say(ASHA, text);
    const late = await agent.say(OFFICE, 'late upper');
    expect(late).toMatch(/plots are late in Upper\. Call first: /);
    expect(late).toMatch(/U-7 and U-8 Dembe, clearing \d+ days late, \+447700900004/);
    expect(late).not.toContain('Asha');
    expect(await agent.say(OFFICE, 'plot U-7')).toMatch(/^U-7: Dembe, 0.6 ha, Upper\..*days late/);
  });

  test('long lists go on with MORE until there is no more, and lose no plot', async () => {
    const agent = await agentLine(onTestFinished);
    agent.wait(20 * 24 * 60);
    let text = await agent.say(OFFICE, 'late');
    let all = '';
    for (let page = 0; page < 9 && /MORE/.test(text); page++) {
      expect(agent.fits(text)).toBe(true);
      all += text;
      text = await agent.say(OFFICE, 'more');
    }
    all += text;
    for (const name of [
      'Asha',
      'Bram',
      'Chipo',
      'Dembe',
      'Esi',
      'Farid',
      'Gita',
      'Hana',
      'Issa',
      'Juma',
      'Kofi',
      'Lela',
    ])
      expect(all, name).toContain(name);
    expect(await agent.say(OFFICE, 'more')).toBe('There is no more to show.');
  });
});

describe('people', () => {
  test('one is added with the code, is welcomed in the own language, and can text at once', async () => {
    const agent = await agentLine(onTestFinished);
    const { done } = await agent.order(OFFICE, 'add 07700 900050 Maria, upper, 0.4 ha, french');
    expect(done).toBe('Done: U-9.');
    expect((await agent.sent())[0]).toMatch(/^050: Bonjour Maria/);
    expect(await agent.say('+447700900050', 'défriché parcelle 1')).toContain('Parcelle 1');
    expect(await agent.say(OFFICE, 'plot U-9')).toContain('Maria');
  });

  test('without the code nobody is added', async () => {
    const agent = await agentLine(onTestFinished);
    await agent.say(OFFICE, 'add 07700900050 Maria, upper, 0.4 ha');
    expect(await agent.say('+447700900050', 'next')).toContain('This is the planting line');
  });

  test('a plot goes to another grower, whose free number it gets; both are told', async () => {
    const agent = await agentLine(onTestFinished);
    await agent.order(OFFICE, 'give U-6 to 07700900001');
    const texts = await agent.sent();
    expect(texts).toEqual([
      expect.stringMatching(/^001: You have a new plot on this line: plot 4, 0.2 ha/),
      expect.stringMatching(/^003: Plot 1 is no longer yours/),
    ]);
    expect(await agent.say(ASHA, 'plots')).toContain('Plot 4');
  });

  test('a plot that goes to another block loses its turn there', async () => {
    const agent = await agentLine(onTestFinished);
    await agent.order(OFFICE, 'flood upper 14 march');
    await agent.sent();
    await agent.order(OFFICE, 'move U-7 to lower');
    expect(await agent.say(OFFICE, 'plot U-7')).not.toContain('turn');
    expect(await agent.say(SECRETARY, 'plot U-7')).toContain('Dembe');
  });

  test('one who is taken off the line is told, and is a stranger then', async () => {
    const agent = await agentLine(onTestFinished);
    await agent.order(OFFICE, 'remove 07700900003');
    expect(await agent.sent()).toEqual([
      expect.stringMatching(/^003: You are no longer on this planting line/),
    ]);
    expect(await agent.say('+447700900003', 'next')).toContain('This is the planting line');
    expect(await agent.say(OFFICE, 'ready upper')).toMatch(/^Upper: 7 plots/);
  });

  test.each([
    ['add Maria upper 0.4 ha', /number/],
    ['add 07700900050 Maria, 0.4 ha', /^Which block/],
    ['add 07700900050, upper, 0.4 ha', /^Text ADD/],
    ['add 07700900050 Maria, upper', /^Text ADD/],
    ['move U-99 to lower', /^I know no plot U-99/],
    ['move U-7 to upper', /there already/],
    ['give U-7 to 07700900888', /^I know no grower/],
    ['remove 07700900888', /^I know no grower/],
  ])('"%s" is answered with what is lacking', async (text, answer) => {
    const agent = await agentLine(onTestFinished);
    const said = await agent.say(OFFICE, text);
    expect(said).not.toMatch(/text back code/);
    if (text !== 'add Maria upper 0.4 ha') expect(said).toMatch(answer);
  });
});

describe('who takes no texts', () => {
  test('is named in previews and in the list, and gets nothing', async () => {
    const agent = await agentLine(onTestFinished);
    await agent.say(DEMBE, 'stop');
    expect(await agent.say(OFFICE, 'stopped')).toBe('2 plots get no texts: U-7 Dembe. U-8 Dembe.');
    const { preview } = await agent.order(OFFICE, 'tell upper: come on friday');
    expect(preview).toContain('People 3, texts 3');
    expect(preview).toContain('1 person takes no texts: Dembe.');
    expect((await agent.sent()).map((text) => text.slice(0, 3))).toEqual(['001', '002', '003']);
  });

  test('more than three are told as a number behind the names', async () => {
    const agent = await agentLine(onTestFinished);
    const stopped = ['001', '002', '003', '004'].map((end) => `+447700900${end}`);
    for (const phone of stopped.slice(0, 3)) await agent.say(phone, 'stop');
    expect(await agent.say(OFFICE, 'tell upper: come')).toMatch(/3 people take no texts: \w+, \w+ and \w+\./);
    await agent.say(DEMBE, 'stop');
    expect(await agent.say(OFFICE, 'tell upper: come')).toMatch(
      /4 people take no texts: \w+, \w+, \w+ and 1 more\./,
    );
  });
});

test("an agent who has stopped the own phone's texts is told so in the list", async () => {
  const agent = await agentLine(onTestFinished);
  const own = 'This phone has stopped texts: START brings them back.';
  await agent.say(OFFICE, 'stop');
  expect(await agent.say(OFFICE, 'stopped')).toBe(`${own} Everybody else takes texts.`);
  await agent.say(DEMBE, 'stop');
  expect(await agent.say(OFFICE, 'stopped')).toBe(`${own} 2 plots get no texts: U-7 Dembe. U-8 Dembe.`);
  await agent.say(OFFICE, 'start');
  expect(await agent.say(OFFICE, 'stopped')).not.toContain(own);
});

test('delivery is summed up to the agent', async () => {
  const agent = await agentLine(onTestFinished);
  await agent.order(OFFICE, 'tell upper: come on friday');
  expect(await agent.sent()).toHaveLength(4);
  agent.wait(31);
  expect(await agent.sent()).toEqual(['990: Message to Upper: all 4 phones reached.']);
});

test('a grower asks for the own turns, and has them again with START', async () => {
  const agent = await agentLine(onTestFinished);
  expect(await agent.say(ASHA, 'my turn')).toMatch(/^No turn is told/);
  await agent.order(OFFICE, 'flood upper 20 march');
  expect(await agent.say(ASHA, 'when is my water turn')).toMatch(
    /^Plot 1: water turn from Sat 20 Mar to Sun 21 Mar\./,
  );
  await agent.say(ASHA, 'stop');
  expect(await agent.say(ASHA, 'start')).toContain('Plot 1: water turn from Sat 20 Mar');
});

test('the day before a turn it is told, also when the work before it is not done', async () => {
  const agent = await agentLine(onTestFinished);
  await agent.order(OFFICE, 'flood upper 20 march');
  await agent.sent();
  agent.wait(9 * 24 * 60 + 10 * 60);
  await sweepReminders(agent.line);
  expect((await agent.sent()).find((text) => text.startsWith('001'))).toContain(
    'your water turn is tomorrow, Sat 20 Mar',
  );
});

test('NO drops what waits for its code', async () => {
  const agent = await agentLine(onTestFinished);
  const code = codeIn(await agent.say(OFFICE, 'tell upper: come'));
  expect(await agent.say(OFFICE, 'no')).toBe('Good, nothing is sent.');
  expect(await agent.say(OFFICE, code)).toMatch(/^No code is open/);
});

test.each([
  ['tell upper', /^Text TELL/],
  ['add', /^I need the phone number/],
  ['flood upper and middle', /^Which block/],
  ['flood uper 14 march', /^Water for Upper from Sun 14 Mar/],
  ['flood upper 14', /^Water for Upper from Sun 14 Mar/],
  ['flood upper 14 march 2028', /too far off/],
  ['turns upper 20 march', /^Upper would have these turns from Sat 20 Mar/],
  ['oxen', /^Oxen, ploughing: 9 plots/],
  ['tractor is fixed', /^Good\. Text TILLER/],
])('"%s" is answered as an agent means it', async (text, answer) => {
  const agent = await agentLine(onTestFinished);
  expect(await agent.say(OFFICE, text)).toMatch(answer);
});

test('an agent of one block adds nobody in another', async () => {
  const agent = await agentLine(onTestFinished);
  expect(await agent.say(SECRETARY, 'add 07700900050 Bob, upper, 0.3 ha')).toMatch(
    /^Which block\? Yours: Lower/,
  );
});

test('WHY after a plot of the group is about that plot', async () => {
  const agent = await agentLine(onTestFinished);
  await agent.say(OFFICE, 'plot U-7');
  expect(await agent.say(OFFICE, 'why')).toMatch(/^Why: /);
});

test('a code in the digits of another script is the code', async () => {
  const agent = await agentLine(onTestFinished);
  const code = codeIn(await agent.say(OFFICE, 'tell upper: come'));
  const bengali = [...code].map((digit) => String.fromCodePoint(0x9e6 + Number(digit))).join('');
  expect(await agent.say(OFFICE, bengali)).toMatch(/^Good/);
});
