/** `season --as agent`: some weeks of two agents and their growers on a simulated clock, every order with what comes of it. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type SettableClock, simulatedClock } from '../clock.ts';
import { mistakeLine } from '../scheme/file-mistake.ts';
import { countedCodes } from '../store/codes.ts';
import { countedIds } from '../store/ids.ts';
import { loadPhone, worldOf } from '../store/load-phone.ts';
import type { OpenLine } from '../sweeps/open-line.ts';
import { schemeOf, settingOf } from '../sweeps/phone-setting.ts';
import { sweepBroadcasts } from '../sweeps/sweep-broadcasts.ts';
import { sweepDeliveries } from '../sweeps/sweep-deliveries.ts';
import { sweepOnce } from '../sweeps/sweep-once.ts';
import { sweepOutbox } from '../sweeps/sweep-outbox.ts';
import { takeText } from '../web/take-text.ts';
import { type AgentAct, type AgentSeasonScript, readAgentSeason } from './agent-season-file.ts';
import { importPeople } from './import-people.ts';
import { openDeskLine } from './open-desk-line.ts';
import { readSeasonTexts, type SeasonTexts } from './season-file.ts';
import { type SeasonPage, seasonPage } from './season-page.ts';
import { type Memory, textsOf } from './simulated-grower.ts';

const DEMO = fileURLToPath(new URL('../../scripts/demo/', import.meta.url));
const MINUTE_MS = 60_000;
const DAY_MS = 1440 * MINUTE_MS;
/** Growers text in the morning, before the agents do; the sweeps come in the afternoon, and once more for receipts. */
const GROWERS_AT = '07:30';
const SWEEPS_AT = ['17:00', '17:40'] as const;

/** Plays the weeks of the script `scripts/demo/agent-season.yaml` on a database of its own; every row goes to `print`. */
export async function playAgentSeason(print: (row: string) => void): Promise<void> {
  const script = readAgentSeason(readFileSync(join(DEMO, 'agent-season.yaml'), 'utf8'));
  const folder = mkdtempSync(join(tmpdir(), 'bundline-season-'));
  const clock = simulatedClock(Date.parse(`${script.start}T06:00:00Z`));
  const fault = (facts: object, message: string) => print(`FAULT ${message} ${JSON.stringify(facts)}`);
  const line = await openDeskLine(null, {
    path: join(folder, 'season.db'),
    clock,
    makeId: countedIds('season'),
    makeCode: countedCodes(),
    log: { info: () => {}, warn: fault, error: fault },
  });
  const texts = readSeasonTexts(readFileSync(join(DEMO, 'texts', 'en.yaml'), 'utf8'));
  try {
    await new AgentSeason(line, clock, script, texts, seasonPage(print)).play();
  } finally {
    await line.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** One run: the line, its clock, and what has been printed of it. */
class AgentSeason {
  private readonly memory: Memory = { firstDue: new Map(), texted: new Map() };
  private readonly shown = new Set<string>();
  private readonly lastAnswer = new Map<string, string>();
  private texts = 0;

  constructor(
    private readonly line: OpenLine,
    private readonly clock: SettableClock,
    private readonly script: AgentSeasonScript,
    private readonly says: SeasonTexts,
    private readonly page: SeasonPage,
  ) {}

  async play(): Promise<void> {
    const start = Date.parse(`${this.script.start}T00:00:00Z`);
    for (let day = 0; day < this.script.days; day++) {
      const midnight = start + day * DAY_MS;
      this.setTime(midnight, GROWERS_AT);
      await this.growersText();
      for (const act of this.script.acts.filter((one) => one.day === day)) await this.act(midnight, act);
      for (const at of SWEEPS_AT) await this.sweep(midnight, at);
    }
  }

  private setTime(midnight: number, at: string): void {
    this.clock.set(midnight + (Number(at.slice(0, 2)) * 60 + Number(at.slice(3))) * MINUTE_MS);
  }

  private async growersText(): Promise<void> {
    const people = await this.people();
    for (const [grower, habits] of Object.entries(this.script.growers)) {
      const owner = people.find(({ name }) => name.toLowerCase() === grower);
      if (!owner) continue;
      const facts = await loadPhone(this.line.db, owner.phone);
      const world = worldOf(facts, settingOf(this.line, schemeOf(this.line, facts), this.clock.nowMs()));
      for (const text of textsOf(world, owner.id, habits, this.says, this.memory))
        await this.text(owner.phone, text);
    }
  }

  private async people() {
    const rows = await this.line.db
      .selectFrom('people')
      .innerJoin('phone_people', 'phone_people.person_id', 'people.id')
      .select(['people.id', 'people.name', 'phone_people.phone'])
      .orderBy('phone_people.phone')
      .execute();
    for (const { phone, name } of rows) this.page.named(phone, name);
    return rows;
  }

  private async act(midnight: number, act: AgentAct): Promise<void> {
    this.setTime(midnight, act.at);
    if (act.note !== undefined) this.page.note(this.clock.nowMs(), act.note);
    if ('import' in act) return this.takeIn(act.import);
    const code = /\b\d{5}\b/.exec(this.lastAnswer.get(act.phone) ?? '')?.[0] ?? '00000';
    await this.text(act.phone, act.text.replace('{code}', code));
    await this.sweepAt(this.clock.nowMs());
  }

  private async takeIn(file: string): Promise<void> {
    const [scheme] = this.line.schemes();
    if (!scheme) return;
    const reading = await importPeople(this.line, scheme, {
      name: file,
      bytes: readFileSync(join(DEMO, file)),
    });
    const rows = reading.ok
      ? [`${file}: ${reading.newGrowers} growers, ${reading.added.length} plots`]
      : reading.mistakes.map((mistake) => `${file}: ${mistakeLine(mistake)}`);
    for (const row of rows) this.page.note(this.clock.nowMs(), row);
    await this.people();
  }

  private async text(phone: string, text: string): Promise<void> {
    this.texts += 1;
    const answer = await takeText(this.line, { carrierId: `SM${this.texts}`, from: phone, text });
    this.lastAnswer.set(phone, answer ?? '');
    const isShown = this.script.shows.includes(phone);
    if (isShown) this.page.row(this.clock.nowMs(), phone, '>', text);
    if (isShown) this.page.row(this.clock.nowMs(), phone, '<', answer ?? '(no answer)');
    this.clock.advance(MINUTE_MS);
  }

  private async sweep(midnight: number, at: string): Promise<void> {
    this.setTime(midnight, at);
    await sweepOnce(this.line);
    await this.sweepAt(this.clock.nowMs());
  }

  private async sweepAt(nowMs: number): Promise<void> {
    await sweepBroadcasts(this.line);
    await sweepOutbox(this.line);
    await sweepDeliveries(this.line);
    await sweepOutbox(this.line);
    const rows = await this.line.db
      .selectFrom('outbox')
      .select(['id', 'key', 'phone', 'text'])
      .orderBy('phone')
      .orderBy('id')
      .execute();
    for (const { id, key, phone, text } of rows) {
      if (this.shown.has(id)) continue;
      this.shown.add(id);
      const isShown = this.script.shows.includes(phone) || !key.startsWith('reminder:');
      if (isShown) this.page.row(nowMs, phone, '*', text);
    }
  }
}
