/** A line whose texts a fake carrier takes over HTTP, and which takes its receipts over HTTP. */
import { restCarrier } from '../../src/carriers/rest-carrier.ts';
import { type FakeCarrier, TOKEN } from '../../src/commands/fake-carrier/fake-carrier.ts';
import { queueText } from '../../src/store/outbox.ts';
import type { Line } from '../../src/sweeps/line.ts';
import { fakeCarrier } from './fake-carrier.ts';
import { accountAt, PUBLIC_URL, SHORT_MS } from './rest-texts.ts';
import { DAY_MS, type TestLine, testLine } from './test-line.ts';
import { startWeb } from './webhook.ts';

export interface CarriedLine {
  readonly line: TestLine;
  readonly fake: FakeCarrier;
  /** Where the line listens. */
  readonly url: string;
}

/** Opens both; the carrier's clock is the line's. */
export async function carriedLine(
  afterwards: (undo: () => Promise<void> | void) => void,
  timeoutMs = SHORT_MS,
): Promise<CarriedLine> {
  const fake = await fakeCarrier(afterwards);
  const carrier = restCarrier(accountAt(fake.url, { timeoutMs }));
  const line = await testLine(afterwards, { carrier });
  fake.ways.nowMs = () => line.clock.nowMs();
  const { url } = await startWeb(line, afterwards, { token: TOKEN, publicUrl: PUBLIC_URL });
  fake.ways.line = { publicUrl: PUBLIC_URL, url };
  return { line, fake, url };
}

/** Queues a text that may go now, or in `inMs`; `id` is its key too. */
export async function queueNow(
  line: Pick<Line, 'db' | 'clock'>,
  id: string,
  phone: string,
  { forMs = DAY_MS, inMs = 0 }: { readonly forMs?: number; readonly inMs?: number } = {},
): Promise<void> {
  const nowMs = line.clock.nowMs();
  const row = { id, key: id, phone, text: `text ${id}` };
  await queueText(line.db, { ...row, notBeforeMs: nowMs + inMs, expiresMs: nowMs + forMs }, nowMs, null);
}

/** Every text of the outbox, as queued. */
export async function outboxRows(line: Pick<Line, 'db'>) {
  return await line.db.selectFrom('outbox').selectAll().orderBy('created_ms').orderBy('key').execute();
}
