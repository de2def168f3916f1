/** Texts per second over HTTP, of the whole path and of a floor that only reads the form and writes one durable row. */
import { type BenchForm, CONNECTIONS, closedRound, middle, type Round, startServer } from './bench-client.ts';
import { BENCH_PHONES } from './bench-scheme.ts';

const TEXTS_A_ROUND = 3000;
const ROUNDS = 3;

/** What growers text most; each phone sends them in turn. */
const TEXTS = [
  'cleared plot 1',
  'what next',
  'soaked plot 1 yesterday',
  'ploughed plot 2, 12 cm',
  'when puddle plot 1?',
  'dates 2',
  'why',
  'undo',
];

/** Alternates floor and line, so that a slow minute of the machine weighs on both; the middle rounds count. */
export async function benchWebhook(): Promise<readonly string[]> {
  const servers = { floor: await startServer('floor'), line: await startServer('line') };
  try {
    let sent = 0;
    const rounds: Record<'floor' | 'line', Round[]> = { floor: [], line: [] };
    for (const name of ['floor', 'line'] as const) await round(servers[name].port, 500, sent++);
    for (let i = 0; i < ROUNDS; i++) {
      for (const name of ['floor', 'line'] as const)
        rounds[name].push(await round(servers[name].port, TEXTS_A_ROUND, sent++));
    }
    const [floor, line] = [middle(rounds.floor), middle(rounds.line)];
    return [
      show('floor', floor),
      show('whole path', line),
      `webhook: ${(line.perSecond / floor.perSecond).toFixed(2)} of the floor (at least 0.4, aim 0.6)`,
    ];
  } finally {
    for (const { child } of Object.values(servers)) child.kill();
  }
}

const show = (name: string, { perSecond, p50, p99 }: Round) =>
  `webhook ${name}: ${perSecond.toFixed(0)} texts/s at ${CONNECTIONS} connections, p50 ${p50.toFixed(1)} ms, p99 ${p99.toFixed(1)} ms`;

/** A text of a round: every phone sends the first of them, then every phone the next. */
export function benchText(run: number, index: number): BenchForm {
  const text = TEXTS[Math.floor(index / BENCH_PHONES) % TEXTS.length] ?? 'next';
  const From = `+447700900${String(index % BENCH_PHONES).padStart(3, '0')}`;
  return {
    path: '/sms',
    form: { MessageSid: `SM${run}-${index}`, From, To: '+447700900999', Body: text },
  };
}

function round(port: number, texts: number, run: number): Promise<Round> {
  return closedRound(port, texts, (index) => benchText(run, index));
}
