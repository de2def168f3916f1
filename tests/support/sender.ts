/** A sender as a process of its own. */
import { type ChildProcessWithoutNullStreams, spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { RestAccount } from '../../src/carriers/rest-account.ts';

const CHILD = fileURLToPath(new URL('./sender-child.mjs', import.meta.url));

export interface SenderSettings {
  readonly path: string;
  readonly account: RestAccount;
  readonly nowMs: number;
  /** Leases texts, and then stays as it is. */
  readonly hold?: boolean;
}

export interface Sender {
  /** Resolves when it has said these words. */
  said(words: string): Promise<void>;
  /** Lets it send. */
  go(): void;
  kill(): void;
  /** How many texts were taken, null when it was killed; rejects when it failed. */
  readonly end: Promise<number | null>;
}

/** Starts one on a line's file, and waits until it is open. */
export async function startSender(
  settings: SenderSettings,
  afterwards: (undo: () => void) => void,
): Promise<Sender> {
  const child = spawn(process.execPath, [CHILD, JSON.stringify(settings)]);
  afterwards(() => void child.kill('SIGKILL'));
  const out = { text: '', faults: '' };
  child.stdout.on('data', (chunk) => (out.text += String(chunk)));
  child.stderr.on('data', (chunk) => (out.faults += String(chunk)));
  const end = endOf(child, out);
  // Whoever waits for its words is told of its end; nobody need wait for the end itself.
  end.catch(() => undefined);
  const said = (words: string) =>
    new Promise<void>((resolve, reject) => {
      const look = () => out.text.includes(words) && resolve();
      child.stdout.on('data', look);
      child.once('close', () => reject(new Error(`ended before "${words}": ${out.faults}`)));
      look();
    });
  await said('ready');
  return { said, go: () => void child.stdin.write('go\n'), kill: () => void child.kill('SIGKILL'), end };
}

function endOf(
  child: ChildProcessWithoutNullStreams,
  out: { readonly text: string; readonly faults: string },
): Promise<number | null> {
  return new Promise((resolve, reject) =>
    child.once('close', (code, signal) => {
      const taken = /taken (\d+)/.exec(out.text)?.[1];
      if (signal === 'SIGKILL') resolve(null);
      else if (code === 0 && taken !== undefined && out.faults === '') resolve(Number(taken));
      else reject(new Error(`the sender failed: ${out.faults}`));
    }),
  );
}
