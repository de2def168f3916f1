/** Every command of an agent in every language: it is understood, and each answer keeps within its parts. */
import { describe, expect, onTestFinished, test } from 'vitest';
import { type AgentLine, ASHA, agentLine, codeIn, OFFICE } from '../../support/agent-line.ts';

/** Texts by command; the plots, blocks and numbers are those of the demo scheme. */
const TEXTS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  en: {
    help: 'menu',
    best: 'flood upper',
    flood: 'flood upper 14 march',
    turns: 'turns upper',
    tell: 'tell upper: come to the gate on friday',
    ready: 'ready',
    late: 'late',
    more: 'more',
    plot: 'plot U-7',
    team: 'tiller upper',
    broken: 'tractor broken until 18 march',
    steps: 'step upper',
    digest: 'digest',
    stopped: 'stopped',
    add: 'add 07700900050 Maria, upper, 0.4 ha',
    move: 'move plot U-7 to lower',
    remove: 'remove plot U-7',
  },
  fr: {
    help: 'menu',
    best: 'eau upper',
    flood: 'eau upper 14 mars',
    turns: 'tours upper',
    tell: 'dire a upper: venez a la vanne vendredi',
    ready: 'prets',
    late: 'retard',
    more: 'voir plus',
    plot: 'parcelle U-7',
    team: 'tracteur upper',
    broken: "tracteur upper en panne jusqu'au 18 mars",
    steps: 'ecart upper',
    digest: 'bilan',
    stopped: 'qui a arrete',
    add: 'ajouter 07700900050 Maria, upper, 0,4 ha',
    move: 'deplacer parcelle U-7 vers lower',
    remove: 'supprimer parcelle U-7',
  },
  sw: {
    help: 'menu',
    best: 'jaza maji upper',
    flood: 'jaza maji upper 14 machi',
    turns: 'zamu upper',
    tell: 'waambie upper: njooni kwenye mfereji ijumaa',
    ready: 'walio tayari',
    late: 'waliochelewa',
    more: 'zaidi',
    plot: 'shamba U-7',
    team: 'trekta upper',
    broken: 'trekta ya upper imeharibika mpaka 18 machi',
    steps: 'pamoja upper',
    digest: 'muhtasari',
    stopped: 'walioacha',
    add: 'ongeza 07700900050 Maria, upper, ha 0.4',
    move: 'hamisha shamba U-7 kwenda lower',
    remove: 'ondoa shamba U-7',
  },
  bn: {
    help: 'menu',
    best: 'upper পানি',
    flood: 'upper পানি ১৪ মার্চ',
    turns: 'পালা upper',
    tell: 'upper জানাও: শুক্রবার খালে আসবেন',
    ready: 'রেডি',
    late: 'দেরি',
    more: 'আরও',
    plot: 'জমি U-7',
    team: 'টিলারের পালা upper',
    broken: 'upper টিলার নষ্ট ১৮ মার্চ পর্যন্ত',
    steps: 'একসাথে upper',
    digest: 'সারাংশ',
    stopped: 'কারা বন্ধ করেছে',
    add: 'যোগ করুন 07700900050 Maria, upper, 0.4 হেক্টর',
    move: 'U-7 সরাও lower',
    remove: 'U-7 বাদ দাও',
  },
};

/** Commands that need a code. */
const ORDERS = ['flood', 'tell', 'team', 'add', 'move', 'remove'];

/** The demo scheme with its office, and all growers, speaking a language. */
const speaking = (lang: string) => (scheme: string) => scheme.replaceAll('lang: en', `lang: ${lang}`);

/** Three days later, with much of it late. */
async function lateLine(lang: string): Promise<AgentLine> {
  const agent = await agentLine(onTestFinished, speaking(lang));
  agent.wait(3 * 24 * 60);
  return agent;
}

describe.each(Object.keys(TEXTS))('in %s', (lang) => {
  const texts = TEXTS[lang]!;

  test('every command is understood and answered within its parts', async () => {
    const agent = await lateLine(lang);
    const answers = new Map<string, string>();
    for (const [command, text] of Object.entries(texts)) {
      const answer = await agent.say(OFFICE, text);
      answers.set(command, answer);
      expect(agent.fits(answer), `${command}: ${answer}`).toBe(true);
      expect(answer, command).not.toBe('');
      // A command that was not understood would be asked back with the same words each time.
      if (command === 'broken' || ORDERS.includes(command))
        expect(codeIn(answer), `${command}: ${answer}`).not.toBe('');
    }
    const unclear = await agent.say(OFFICE, 'qwrtz plmk');
    for (const [command, answer] of answers) expect(answer, command).not.toBe(unclear);
    expect(new Set(answers.values()).size).toBe(answers.size);
    expect(agent.faults).toEqual([]);
  });

  test('orders are done with their codes, and growers are told in that language', async () => {
    const agent = await lateLine(lang);
    await agent.sent();
    for (const command of ORDERS) {
      const preview = await agent.say(OFFICE, texts[command]!);
      const done = await agent.say(OFFICE, codeIn(preview));
      expect(agent.fits(done), `${command}: ${done}`).toBe(true);
      const told = await agent.sent();
      for (const text of told) expect(agent.fits(text.slice(5)), text).toBe(true);
    }
    expect(agent.faults).toEqual([]);
    const acts = await agent.line.db.selectFrom('agent_acts').select('act').execute();
    expect(acts.map(({ act }) => act)).toEqual(['flood', 'words', 'team', 'people', 'people', 'people']);
  });

  test('a grower who texts them gets none of it', async () => {
    const agent = await lateLine(lang);
    for (const command of ['late', 'digest', 'add', 'remove', 'team', 'tell'])
      expect(codeIn(await agent.say(ASHA, texts[command]!)), command).toBe('');
    expect(await agent.line.db.selectFrom('reports').selectAll().execute()).toEqual([]);
  });
});
