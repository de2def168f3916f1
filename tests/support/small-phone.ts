/** A phone of the conversation without a database: texts go through the real hearing, step and saying; effects are kept in memory. */
import { DEFAULT_RULEBOOK } from '../../src/agronomy/rules/default-rulebook.ts';
import type { Report, Season } from '../../src/agronomy/season.ts';
import { changedSeason } from '../../src/agronomy/season.ts';
import type { Day } from '../../src/plan/day.ts';
import { measure } from '../../src/say/parts.ts';
import { readVoices } from '../../src/sweeps/read-voices.ts';
import type { Effect, Joiner, Reminder } from '../../src/talk/effect.ts';
import type { TextEvent } from '../../src/talk/event.ts';
import { remind } from '../../src/talk/remind.ts';
import type { TalkState } from '../../src/talk/state.ts';
import { step } from '../../src/talk/step.ts';
import type {
  KeptRain,
  KeptReport,
  Linking,
  NewReport,
  Person,
  PlotWorld,
  SchemeWorld,
  World,
} from '../../src/talk/world.ts';
import { day, season } from './seasons.ts';

const DAY_MS = 86_400_000;
const NOON_MS = DAY_MS / 2;
const voice = readVoices()[0] ?? missingVoice();

function missingVoice(): never {
  throw new Error('no language is there');
}

const span = (from: string, to: string) => ({ from: day(from), to: day(to) });
const UPPER = {
  id: 'upper',
  name: 'Upper',
  water: span('2027-02-20', '2027-05-10'),
  target: span('2027-03-23', '2027-04-06'),
};
const LOWER = {
  id: 'lower',
  name: 'Lower',
  water: span('2027-03-05', '2027-05-30'),
  target: span('2027-04-02', '2027-04-16'),
};

export const SCHEME: SchemeWorld = {
  id: 'orrowe-valley',
  name: 'Orrowe Valley',
  code: 'ORROWE',
  languages: ['en'],
  officer: { name: 'Valley office', phone: '+447700900990' },
  blocks: [UPPER, LOWER],
};

export const ASHA: Person = { id: 'asha', name: 'Asha', lang: 'en', role: 'grower' };

/** A plot of Asha's in the upper block, labelled "U-" and its number; its season is named "s" and its number. */
export function plotOf(number: string, change: Partial<Omit<Season, 'rains' | 'reports'>> = {}): PlotWorld {
  const { rains: _, ...own } = season([], { blockWater: UPPER.water, target: UPPER.target, ...change });
  const ids = { id: `p${number}`, ownerId: 'asha', blockId: 'upper', seasonId: `s${number}` };
  return { ...ids, number, label: `U-${number}`, season: { ...own, reports: [] } };
}

/** All that is kept between two texts. */
export interface Kept {
  readonly state: TalkState | null;
  readonly people: readonly Person[];
  readonly plots: readonly PlotWorld[];
  /** Reports in force, with the place of their text among the phone's texts. */
  readonly reports: readonly (KeptReport & { readonly turn: number })[];
  readonly rains: readonly (KeptRain & { readonly turn: number })[];
  readonly stopped: boolean;
  readonly cautioned: readonly string[];
  readonly reminders: readonly Reminder[];
  readonly turn: number;
  /** Whether the number may be somebody else's by now. */
  readonly doubted?: boolean;
  /** What a second phone's code stands for. */
  readonly linking?: Linking;
  /** The Orrowe Valley where none is given. */
  readonly scheme?: SchemeWorld;
}

/** Asha with plots 1, 2 and 3, nothing reported, nothing asked, every caution given. */
export const ASHAS: Kept = {
  state: null,
  people: [ASHA],
  plots: ['1', '2', '3'].map((number) => plotOf(number)),
  reports: [],
  rains: [],
  stopped: false,
  cautioned: ['tiller', 'animals', 'heat', 'water', 'fertiliser'],
  reminders: [],
  turn: 0,
};

/** A number that nobody has. */
export const NOBODY: Kept = { ...ASHAS, people: [], plots: [], cautioned: [] };

/** The world of the phone at noon of a day. */
export function worldOn(kept: Kept, today: Day): World {
  const turn = Math.max(-1, ...[...kept.reports, ...kept.rains].map((one) => one.turn));
  const reports = kept.reports.filter((one) => one.turn === turn);
  const rains = kept.rains.filter((one) => one.turn === turn);
  const [last] = [...reports, ...rains];
  const plots = kept.plots.map((plot): PlotWorld => {
    const own = <T extends { readonly seasonId: string }>(all: readonly T[]) =>
      all.filter(({ seasonId }) => seasonId === plot.seasonId);
    return {
      ...plot,
      season: { ...plot.season, reports: own(kept.reports), rains: own(kept.rains) },
    };
  });
  return {
    today,
    nowMs: today * DAY_MS + NOON_MS,
    scheme: kept.scheme ?? SCHEME,
    rulebook: DEFAULT_RULEBOOK,
    people: kept.people,
    plots,
    lastBatch: last ? { id: last.batch, reports, rains } : null,
    stopped: kept.stopped,
    cautioned: kept.cautioned,
    ...(kept.doubted === true && { doubted: true }),
    ...(kept.linking && { linking: kept.linking }),
  };
}

/** The event of a text, as the real hearing reads it. */
export function textEvent(text: string, today: Day, batch = 'b'): TextEvent {
  const [heard, details] = [voice.hear(text, today), voice.details(text)];
  return { kind: 'text', batch, text, lang: voice.lang, heard, details };
}

/** What one text came to. */
export interface Came {
  readonly event: TextEvent;
  readonly effects: readonly Effect[];
  /** Keys of the sentences said; none when nothing is said. */
  readonly keys: readonly string[];
  /** The text as sent, '' when nothing is said, and its parts. */
  readonly said: string;
  readonly parts: number;
  readonly recorded: readonly NewReport[];
  readonly after: Kept;
}

/** Takes one text on a day: hears, steps, says, and applies the effects. */
export function take(kept: Kept, text: string, today: Day): Came {
  const batch = `b${kept.turn + 1}`;
  const event = textEvent(text, today, batch);
  const { state, effects } = step(kept.state, event, worldOn(kept, today));
  const stored = { ...kept, state: throughJson(state), turn: kept.turn + 1 };
  return { event, effects, ...toldBy(effects), after: effects.reduce(performed(batch, today), stored) };
}

/** States are kept as JSON. */
const throughJson = (state: TalkState | null) => JSON.parse(JSON.stringify(state)) as TalkState | null;

function toldBy(effects: readonly Effect[]) {
  const say = effects.find((effect) => effect.do === 'say');
  const said = say ? voice.say(say.saying) : '';
  return {
    keys: say?.saying.sentences.map(({ key }) => key) ?? [],
    said,
    parts: said === '' ? 0 : measure(said).parts,
    recorded: effects.flatMap((effect) => (effect.do === 'record' ? [effect.report] : [])),
  };
}

/** The phone after an effect of a text. */
export const performed =
  (batch: string, today: Day) =>
  (kept: Kept, effect: Effect): Kept => {
    switch (effect.do) {
      case 'say':
      case 'note-trouble':
      case 'broadcast':
      case 'text':
      case 'change-people':
      case 'note-act':
      case 'offer-phone':
      case 'link-phone':
      case 'unlink-phone':
        return kept;
      case 'vouch':
        return { ...kept, doubted: false };
      case 'release-phone':
        return { ...kept, doubted: false, people: [], plots: [] };
      case 'record': {
        const id = `${batch}-${kept.reports.length + 1}`;
        return { ...kept, reports: [...kept.reports, { ...effect.report, id, batch, turn: kept.turn }] };
      }
      case 'record-rain': {
        const id = `${batch}-r${kept.rains.length + 1}`;
        return { ...kept, rains: [...kept.rains, { ...effect.rain, id, batch, turn: kept.turn }] };
      }
      case 'undo': {
        const standing = <T extends { readonly id: string }>(all: readonly T[]) =>
          all.filter(({ id }) => !effect.reports.includes(id));
        return { ...kept, reports: standing(kept.reports), rains: standing(kept.rains) };
      }
      case 'remind': {
        const others = kept.reminders.filter(({ seasonId }) => seasonId !== effect.seasonId);
        return { ...kept, reminders: [...others, ...effect.reminders] };
      }
      case 'change-season': {
        const changed = ({ season: own, ...plot }: PlotWorld): PlotWorld =>
          plot.seasonId === effect.seasonId
            ? { ...plot, season: changedSeason(own, effect.change) }
            : { ...plot, season: own };
        return { ...kept, plots: kept.plots.map(changed) };
      }
      case 'stop':
      case 'start':
        return { ...kept, stopped: effect.do === 'stop' };
      case 'rename':
      case 'set-language': {
        const change = effect.do === 'rename' ? { name: effect.name } : { lang: effect.lang };
        return {
          ...kept,
          people: kept.people.map((one) => (one.id === effect.personId ? { ...one, ...change } : one)),
        };
      }
      case 'join':
        return { ...kept, ...joined(effect.joiner, today) };
      case 'forget':
        return forgotten(kept, effect.personId);
      case 'cautioned':
        return { ...kept, cautioned: [...kept.cautioned, effect.activity] };
    }
  };

function forgotten(kept: Kept, personId: string): Kept {
  const people = kept.people.filter(({ id }) => id !== personId);
  const plots = kept.plots.filter(({ ownerId }) => ownerId !== personId);
  const stays = ({ seasonId }: { readonly seasonId: string }) =>
    plots.some((plot) => plot.seasonId === seasonId);
  const [reports, reminders] = [kept.reports.filter(stays), kept.reminders.filter(stays)];
  return { ...kept, people, plots, reports, reminders };
}

function joined({ name, lang, plots }: Joiner, _today: Day): Pick<Kept, 'people' | 'plots'> {
  const person: Person = { id: 'joiner', name, lang, role: 'grower' };
  return {
    people: [person],
    plots: plots.map(({ number, blockId, ...own }) => ({
      ...plotOf(number, own),
      blockId,
      label: null,
      ownerId: person.id,
    })),
  };
}

/** The due reminders as they would be said on a day. */
export function remindOn(kept: Kept, due: readonly Reminder[], today: Day) {
  const { effects } = remind(worldOn(kept, today), due);
  const say = effects.find((effect) => effect.do === 'say');
  const said = say ? voice.say(say.saying, 1) : '';
  return { effects, ...toldBy(effects), said, parts: said === '' ? 0 : measure(said).parts };
}

/** A phone that remembers: each text is taken on its day, one after the other. */
export function phone(start: Kept = ASHAS, first = '2027-03-10') {
  let [kept, today] = [start, day(first)];
  return {
    /** Goes to another day. */
    on: (iso: string) => {
      today = day(iso);
    },
    text: (words: string): Came => {
      const came = take(kept, words, today);
      kept = came.after;
      return came;
    },
    kept: () => kept,
    today: () => today,
    /** What stands on a plot: "plough 2027-03-10", "clear ?" when the day is not known. */
    standing: (number: string) => lines(kept.reports.filter(({ seasonId }) => seasonId === `s${number}`)),
  };
}

/** Reports in short: "plough 2027-03-10"; "clear ?" with no day known; "plough begun …" when it is under way. */
export function lines(reports: readonly Report[]): readonly string[] {
  return reports.map(({ activity, stage, on }) => {
    const when = on === null ? '?' : new Date(on * DAY_MS).toISOString().slice(0, 10);
    return `${activity}${stage === 'started' ? ' begun' : ''} ${when}`;
  });
}
