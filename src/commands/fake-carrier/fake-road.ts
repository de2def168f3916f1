/** The road over a carrier that misbehaves: texts in by the webhook, texts out by the REST interface, receipts late and twice. */
import { restCarrier } from '../../carriers/rest-carrier.ts';
import type { SettableClock } from '../../clock.ts';
import type { Line } from '../../sweeps/line.ts';
import { sweepOutbox } from '../../sweeps/sweep-outbox.ts';
import { createApp, RECEIPT_PATH } from '../../web/create-app.ts';
import { listen } from '../../web/listen.ts';
import type { Brought, Road, Texting } from '../road.ts';
import { type Account, accountOf } from './account.ts';
import { bringText } from './bring-text.ts';
import { type FakeCarrier, fakeCarrier, type Kept, SID, TOKEN, type Waiting } from './fake-carrier.ts';
import { type Lot, lotsOf } from './lot.ts';
import { lookUpMisdeed, mixReceipts, postMisdeed, receiptsOf } from './misdeeds.ts';
import type { Reached } from './post-text.ts';

const PUBLIC_URL = 'https://line.example.org';
/** A number kept for fiction. */
const NUMBER = '+447700900999';
/** How long a carrier that does not answer is waited for; on loopback an answer takes some milliseconds. */
const TIMEOUT_MS = 400;
const MINUTE_MS = 60_000;
/** From five o'clock to the quiet hours, when reminders expire. */
const MOST_MINUTES = 180;

export interface FakeRoad extends Road {
  /** Texts that reached phones. */
  readonly kept: readonly Kept[];
  /** What befell the texts, and what is wrong with how they ended; whole once the season has ended. */
  account(): Account;
}

/** What has happened on the road. */
interface Journey {
  readonly lot: Lot;
  readonly fake: FakeCarrier;
  readonly misdeeds: Map<string, number>;
  readonly faults: string[];
  late: readonly Waiting[];
  rounds: number;
  brought: number;
  account: Account;
}

/** Starts the carrier; the same seed does the same misdeeds to the same texts. */
export async function fakeRoad(seed: string): Promise<FakeRoad> {
  const undo: (() => Promise<void> | void)[] = [];
  const fake = await fakeCarrier((one) => undo.unshift(one));
  const [account, misdeeds] = [{ rows: [], faults: ['the season did not end'] }, new Map<string, number>()];
  const journey: Journey = {
    lot: lotsOf(seed),
    fake,
    misdeeds,
    faults: [],
    late: [],
    rounds: 0,
    brought: 0,
    account,
  };
  misbehave(journey);
  const login = { baseUrl: fake.url, accountSid: SID, token: TOKEN, partsPerSecond: null };
  const statusUrl = PUBLIC_URL + RECEIPT_PATH;
  return {
    carrier: restCarrier({ ...login, from: NUMBER, statusUrl, timeoutMs: TIMEOUT_MS }),
    kept: fake.kept,
    account: () => journey.account,
    open: async (line) => {
      const app = createApp(line, { signing: { token: TOKEN, publicUrl: PUBLIC_URL } });
      const { port, stop } = await listen(app, 0, '127.0.0.1');
      undo.unshift(stop);
      const reached = { publicUrl: PUBLIC_URL, url: `http://127.0.0.1:${port}`, number: NUMBER };
      fake.ways.line = reached;
      fake.ways.nowMs = () => line.clock.nowMs();
      return textingOf(journey, line, reached);
    },
    close: async () => {
      for (const one of undo.splice(0)) await one();
    },
  };
}

function misbehave({ lot, fake: { ways }, misdeeds }: Journey): void {
  const lookUps = new Map<string, number>();
  ways.post = (posted) => {
    const misdeed = postMisdeed(lot, posted);
    if (misdeed !== null) add(misdeeds, misdeed.name, 1);
    return misdeed?.deed ?? 'accept';
  };
  ways.list = (_count, url) => {
    const to = url.searchParams.get('To') ?? '';
    add(lookUps, to, 1);
    const misdeed = lookUpMisdeed(lot, to, lookUps.get(to) ?? 0);
    if (misdeed !== null) add(misdeeds, misdeed.name, 1);
    return misdeed?.deed ?? 'accept';
  };
  ways.reports = (text) => {
    const reports = receiptsOf(lot, text);
    add(misdeeds, 'a receipt before the answer to its text', reports.early?.length ?? 0);
    return reports;
  };
}

function textingOf(journey: Journey, line: Line, reached: Reached): Texting {
  return {
    bring: (text) => bring(journey, reached, text),
    sendAll: (clock) => sendAll(journey, line, clock),
    end: async () => {
      await deliver(journey, true);
      journey.account = await accountOf(line.db, journey);
    },
  };
}

async function bring(journey: Journey, reached: Reached, text: Brought): Promise<string | null> {
  journey.brought += 1;
  const { misdeed, answers } = await bringText(journey.lot, reached, text);
  if (misdeed !== null) add(journey.misdeeds, misdeed, 1);
  const [answer = null] = answers;
  if (answers.some((one) => one !== answer))
    journey.faults.push(`FAULT text ${text.carrierId} was answered in two ways`);
  return answer;
}

/** The clock goes on minute by minute, as the sweeps do in service, until the outbox is at rest. */
async function sendAll(journey: Journey, line: Line, clock: SettableClock): Promise<void> {
  for (let minute = 0; minute < MOST_MINUTES; minute += 1) {
    await sweepOutbox(line);
    await deliver(journey, false);
    const waiting = await line.db.selectFrom('outbox').select('id').where('state', '=', 'queued').execute();
    if (waiting.length === 0) return;
    clock.advance(MINUTE_MS);
  }
}

async function deliver(journey: Journey, isLast: boolean): Promise<void> {
  const { lot, fake, misdeeds, faults } = journey;
  journey.rounds += 1;
  const statuses = await fake.deliver((waiting) => {
    const round = mixReceipts(lot, [...journey.late, ...waiting], journey.rounds, isLast);
    add(misdeeds, 'a receipt twice', round.doubled);
    add(misdeeds, 'a receipt kept back', round.kept.filter((one) => waiting.includes(one)).length);
    journey.late = round.kept;
    add(misdeeds, 'a receipt overtaken by a later one', round.overtaken);
    return round.now;
  });
  for (const status of statuses) if (status !== 204) faults.push(`FAULT a receipt was answered ${status}`);
}

function add(counts: Map<string, number>, name: string, count: number): void {
  if (count > 0) counts.set(name, (counts.get(name) ?? 0) + count);
}
