/** A conversation of a few fixed words, so that the shell can be tested without the real one. */
import type { Talk, Voice } from '../../src/sweeps/line.ts';
import type { Effect } from '../../src/talk/effect.ts';
import type { World } from '../../src/talk/world.ts';

/** State of the fake: how many texts in a row it has seen. */
interface Counting {
  readonly v: 1;
  readonly expiresMs: number;
  readonly count: number;
}

const HOUR_MS = 3_600_000;

/** Hears nothing; says the key and the values as JSON. */
export function fakeVoice(lang = 'en'): Voice {
  return {
    lang,
    hear: (text) => ({
      readings: [],
      unclear: { why: text.trim() === '' ? 'empty' : 'nothing-known', choices: [] },
    }),
    wordsKnown: () => 0,
    strangersIn: () => [],
    workWordsIn: () => [],
    isAutomatic: () => false,
    details: () => ({ numbers: [], depthsCm: [], areasHa: [], tillage: null, language: null, plots: [] }),
    whyTaken: () => null,
    say: (saying) =>
      saying.sentences
        .map(({ key, values }) => (values ? `${key} ${JSON.stringify(values)}` : key))
        .join('. '),
  };
}

/**
 * "ploughed N" records and plans a reminder for tomorrow; "undo", "stop", "start", "forget", "join NAME" do as they
 * say; "boom" records and then throws; anything else is echoed with the number of texts so far.
 */
export const fakeTalk: Talk = {
  version: 1,
  step: (state, { text }, world) => {
    const count = ((state as Counting | null)?.count ?? 0) + 1;
    return {
      state: { v: 1, expiresMs: world.nowMs + HOUR_MS, count } as Counting,
      effects: effectsOf(text, count, world),
    };
  },
  askWhose: () => ({ state: null, effects: [] }),
  plan: () => ({ effects: [] }),
  broadcast: (head, { name }) => ({
    sentences: [{ key: `${head.kind} for ${name}${head.kind === 'words' ? `: ${head.words}` : ''}` }],
  }),
  digest: ({ group }) => (group ? { sentences: [{ key: `digest of ${group.plots.length}` }] } : null),
  delivered: ({ phones, reached, failedPlots }, named) => {
    const failed = failedPlots.slice(0, named).join(' ');
    const more = failedPlots.length > named ? ` and ${failedPlots.length - named} more` : '';
    return { sentences: [{ key: `${reached} of ${phones} reached, failed ${failed}${more}` }] };
  },
  remind: (world, due) => {
    const open = due.filter(({ seasonId }) => plotOf(world, seasonId)?.season.reports.length !== 2);
    if (open.length === 0) return { effects: [] };
    const what = open.map(
      ({ seasonId, activity, why }) => `${plotOf(world, seasonId)?.number} ${activity} ${why}`,
    );
    return {
      effects: [{ do: 'say', lang: 'en', saying: { sentences: [{ key: `remind ${what.join(', ')}` }] } }],
    };
  },
};

function plotOf(world: World, seasonId: string) {
  return world.plots.find((plot) => plot.seasonId === seasonId);
}

function said(key: string): Effect {
  return { do: 'say', lang: 'en', saying: { sentences: [{ key }] } };
}

function effectsOf(text: string, count: number, world: World): readonly Effect[] {
  const [word, rest = ''] = text.trim().split(/\s+/);
  switch (word) {
    case 'ploughed':
      return ploughed(rest, count, world);
    case 'boom':
      return [...ploughed('1', count, world), { do: 'remind', seasonId: 'none', reminders: badReminders() }];
    case 'undo':
      return [{ do: 'undo', reports: world.lastBatch?.reports.map(({ id }) => id) ?? [] }, said('undone')];
    case 'stop':
    case 'start':
      return [{ do: word }, said(word)];
    case 'forget':
      return [{ do: 'forget', personId: world.people[0]?.id ?? '' }, said('forgotten')];
    case 'join':
      return [{ do: 'join', joiner: joinerOf(rest, text, world) }, said('joined')];
    default:
      return [said(`heard ${count} plots ${world.plots.length} ${text}`)];
  }
}

function ploughed(number: string, count: number, world: World): readonly Effect[] {
  const plot = world.plots.find((each) => each.number === number);
  if (plot === undefined) return [said(`no plot ${number}`)];
  const { seasonId } = plot;
  const report = { seasonId, activity: 'plough', stage: 'finished', on: world.today, measures: {} } as const;
  const reminder = { on: world.today + 1, seasonId, activity: 'flood', why: 'tomorrow' } as const;
  return [
    { do: 'record', report },
    { do: 'remind', seasonId, reminders: [reminder] },
    said(`ploughed ${number} (${plot.season.reports.length} before, text ${count})`),
  ];
}

/** Planning for a season that is not there breaks a foreign key: the shell must take everything back. */
function badReminders() {
  return [{ on: 0, seasonId: 'none', activity: 'flood', why: 'tomorrow' }] as const;
}

function joinerOf(name: string, consent: string, world: World) {
  const way = {
    water: 'irrigated',
    tillage: 'hoe',
    establishment: 'transplant',
    nursery: 'wet-bed',
    ripens: 'by-days',
  } as const;
  const blockId = world.scheme.blocks[0]?.id ?? '';
  return { name, lang: 'en', consent, plots: [{ number: '1', blockId, areaHa: 0.2, way, varietyDays: 120 }] };
}
