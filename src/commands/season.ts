/** Plays a whole season of the demo scheme on a simulated clock and prints every text. The same each time. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type SettableClock, simulatedClock } from '../clock.ts';
import type { Catalogue } from '../say/catalogue.ts';
import { countedIds } from '../store/ids.ts';
import { loadPhone, worldOf } from '../store/load-phone.ts';
import { findPhone, talkState } from '../store/talks.ts';
import type { OpenLine } from '../sweeps/open-line.ts';
import { schemeOf, settingOf } from '../sweeps/phone-setting.ts';
import { sweepReminders } from '../sweeps/sweep-reminders.ts';
import type { TalkState } from '../talk/state.ts';
import type { World } from '../talk/world.ts';
import { openDeskLineOf } from './open-desk-line.ts';
import { readMessage } from './read-message.ts';
import { deskRoad, type Road, type Texting } from './road.ts';
import { type SeasonEnd, seasonEnd } from './season-end.ts';
import {
  type Incident,
  incidentText,
  readSeasonScript,
  readSeasonTexts,
  type SeasonScript,
  type SeasonTexts,
} from './season-file.ts';
import { type SeasonPage, seasonPage } from './season-page.ts';
import { seasonTextsPath } from './season-paths.ts';
import { seasonScheme } from './season-scheme.ts';
import { loadCatalogue } from './sheet.ts';
import { type Memory, textsOf } from './simulated-grower.ts';

const MINUTE_MS = 60_000;
const DAY_MS = 1440 * MINUTE_MS;
/** Growers text from nine in the morning; the reminders go out at five. */
const GROWERS_AT = '09:00';
const REMINDERS_AT = '17:00';

/** What is played: a script, a language of all growers (English), and a way of growing of all plots (each its own). */
export interface Played {
  readonly script: string;
  readonly lang?: string | undefined;
  readonly way?: string | undefined;
  /** The desk's when not given. */
  readonly road?: Road;
}

/** Plays a season on a database of its own; every row goes to `print`. Resolves to what was then recorded. */
export async function playSeason(
  { script: scriptText, lang = 'en', way, road = deskRoad }: Played,
  print: (row: string) => void,
): Promise<SeasonEnd> {
  const script = readSeasonScript(scriptText);
  const speech = {
    texts: readSeasonTexts(readFileSync(seasonTextsPath(lang), 'utf8')),
    catalogue: loadCatalogue(lang),
  };
  const folder = mkdtempSync(join(tmpdir(), 'bundline-season-'));
  const clock = simulatedClock(Date.parse(`${script.start}T06:00:00Z`));
  const fault = (facts: object, message: string) => print(`FAULT ${message} ${JSON.stringify(facts)}`);
  const line = await openDeskLineOf(seasonScheme(script, lang, way), {
    path: join(folder, 'season.db'),
    clock,
    carrier: road.carrier,
    makeId: countedIds('season'),
    log: { info: () => {}, warn: fault, error: fault },
  });
  try {
    const days = way === undefined ? script.days : script.daysOfWays;
    const texting = await road.open(line);
    await new Season(line, clock, texting, script, speech, days, seasonPage(print)).play();
    await texting.end();
    return await seasonEnd(line.db);
  } finally {
    await road.close();
    await line.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The growers' language: what they text, and what they can read. */
interface Speech {
  readonly texts: SeasonTexts;
  readonly catalogue: Catalogue;
}

/** One run of a season: the line, its clock, and what has been printed of it. */
class Season {
  private readonly memory: Memory = { firstDue: new Map(), texted: new Map() };
  private readonly shown = new Set<string>();
  private readonly rained = new Set<string>();
  private texts = 0;

  constructor(
    private readonly line: OpenLine,
    private readonly clock: SettableClock,
    private readonly texting: Texting,
    private readonly script: SeasonScript,
    private readonly speech: Speech,
    private readonly days: number,
    private readonly page: SeasonPage,
  ) {}

  async play(): Promise<void> {
    const start = Date.parse(`${this.script.start}T00:00:00Z`);
    for (let day = 0; day < this.days; day++) {
      const midnight = start + day * DAY_MS;
      const incidents = this.script.incidents
        .filter((one) => one.day === day)
        .sort((a, b) => a.at.localeCompare(b.at));
      for (const one of incidents.filter(({ at }) => at < GROWERS_AT)) await this.send(midnight, one);
      await this.growersText(midnight);
      await this.remind(midnight);
      for (const one of incidents.filter(({ at }) => at >= GROWERS_AT)) await this.send(midnight, one);
    }
  }

  private async growersText(midnight: number): Promise<void> {
    this.clock.set(midnight + minutes(GROWERS_AT) * MINUTE_MS);
    for (const [grower, habits] of Object.entries(this.script.growers)) {
      const owner = await this.person(grower);
      if (!owner) continue;
      await this.textRain(midnight, owner.phone);
      const world = await this.world(owner.phone);
      for (const text of textsOf(world, owner.id, habits, this.speech.texts, this.memory)) {
        const answer = await this.text(owner.phone, text);
        await this.answer(owner.phone, answer, habits.picks);
      }
    }
  }

  /** What fell is texted the morning after it was measured, once a phone, by those who have no canal. */
  private async textRain(midnight: number, phone: string): Promise<void> {
    const day = (midnight - Date.parse(`${this.script.start}T00:00:00Z`)) / DAY_MS;
    const fell = this.script.rain.find((one) => one.day === day);
    const key = `${phone} ${day}`;
    if (!fell || this.rained.has(key)) return;
    this.rained.add(key);
    const { plots } = await this.world(phone);
    if (plots.some(({ season }) => season.way.water === 'rain-fed'))
      await this.text(phone, this.speech.texts.rain.replace('{mm}', String(fell.mm)));
  }

  /** A grower who is asked picks a number; one who is told to text NEXT does so, and picks then. */
  private async answer(phone: string, asked: string, pick: number): Promise<void> {
    const { texts, catalogue } = this.speech;
    const told = (key: string) => readMessage(key, asked, catalogue)?.['plot'];
    const [open, ripens] = [told('conflict.still'), told('next.harvest-date')];
    if (open !== undefined) await this.text(phone, texts.next.replace('{plot}', open));
    const numbered = await this.isAskedByNumber(phone);
    if (ripens !== undefined) await this.text(phone, texts['harvest-date'].replace('{plot}', ripens));
    if (numbered) await this.text(phone, String(pick));
  }

  private async isAskedByNumber(phone: string): Promise<boolean> {
    const row = await findPhone(this.line.db, phone);
    const state = talkState<TalkState>(row, this.line.talk.version, this.clock.nowMs());
    return state?.standing.at === 'choose';
  }

  /** People of a scheme file are found by their id there, which ends their stored id. */
  private async person(grower: string): Promise<{ id: string; phone: string } | undefined> {
    const rows = await this.line.db
      .selectFrom('people')
      .innerJoin('phone_people', 'phone_people.person_id', 'people.id')
      .select(['people.id', 'people.name', 'phone_people.phone'])
      .orderBy('phone_people.phone')
      .execute();
    for (const { name, phone } of rows) this.page.named(phone, name);
    const found = rows.find(({ name }) => name.toLowerCase() === grower);
    return found && { id: found.id, phone: found.phone };
  }

  private async world(phone: string): Promise<World> {
    const facts = await loadPhone(this.line.db, phone);
    return worldOf(facts, settingOf(this.line, schemeOf(this.line, facts), this.clock.nowMs()));
  }

  private async send(midnight: number, incident: Incident): Promise<void> {
    this.clock.set(midnight + minutes(incident.at) * MINUTE_MS);
    await this.text(incident.phone, incidentText(incident, this.speech.texts));
  }

  private async text(phone: string, text: string): Promise<string> {
    this.texts += 1;
    const answer = await this.texting.bring({ carrierId: `SM${this.texts}`, from: phone, text });
    this.page.row(this.clock.nowMs(), phone, '>', text);
    this.page.row(this.clock.nowMs(), phone, '<', answer ?? '(no answer)');
    this.clock.advance(MINUTE_MS);
    return answer ?? '';
  }

  private async remind(midnight: number): Promise<void> {
    this.clock.set(midnight + minutes(REMINDERS_AT) * MINUTE_MS);
    await sweepReminders(this.line);
    await this.texting.sendAll(this.clock);
    this.clock.set(midnight + minutes(REMINDERS_AT) * MINUTE_MS);
    const rows = await this.line.db
      .selectFrom('outbox')
      .select(['id', 'phone', 'text'])
      .orderBy('phone')
      .execute();
    for (const { id, phone, text } of rows) {
      if (this.shown.has(id)) continue;
      this.shown.add(id);
      this.page.row(this.clock.nowMs(), phone, '*', text);
    }
  }
}

const minutes = (time: string) => Number(time.slice(0, 2)) * 60 + Number(time.slice(3));
