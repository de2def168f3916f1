/** The built server as a process of its own, for what only a real process can show. */
import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));

export interface RealServer {
  readonly url: string;
  /** Ends it with this signal and waits until it is gone; returns its exit code, null when it was killed. */
  end(signal: 'SIGKILL' | 'SIGTERM'): Promise<number | null>;
}

/** What a process that ended by itself left behind. */
export interface Ended {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Builds what is not built yet. */
export function buildServer(): void {
  execFileSync('scripts/prepare', { cwd: ROOT, stdio: 'pipe' });
}

function launch(settings: Readonly<Record<string, string>>): ChildProcess {
  const env = { PATH: process.env['PATH'], PORT: '0', BUNDLINE_LOG_LEVEL: 'error', ...settings };
  return spawn(process.execPath, ['dist/main.js'], { cwd: ROOT, env, stdio: ['ignore', 'pipe', 'pipe'] });
}

/** Starts the server on a free port; rejects with its last words when it does not start. */
export function startServer(
  settings: Readonly<Record<string, string>>,
  afterwards: (undo: () => void) => void,
): Promise<RealServer> {
  const child = launch(settings);
  afterwards(() => void child.kill('SIGKILL'));
  const gone = new Promise<number | null>((resolve) => child.once('exit', resolve));
  return new Promise((resolve, reject) => {
    let words = '';
    child.stderr?.on('data', (chunk) => (words += String(chunk)));
    child.stdout?.on('data', (chunk) => {
      words += String(chunk);
      const port = /on port (\d+)/.exec(words)?.[1];
      if (port === undefined) return;
      const end = (signal: NodeJS.Signals) => {
        child.kill(signal);
        return gone;
      };
      resolve({ url: `http://127.0.0.1:${port}`, end });
    });
    child.once('exit', () => reject(new Error(`the server ended: ${words}`)));
  });
}

/** Runs a server that is expected to end by itself. */
export function runToEnd(
  settings: Readonly<Record<string, string>>,
  afterwards: (undo: () => void) => void,
): Promise<Ended> {
  const child = launch(settings);
  afterwards(() => void child.kill('SIGKILL'));
  const said = { stdout: '', stderr: '' };
  child.stdout?.on('data', (chunk) => (said.stdout += String(chunk)));
  child.stderr?.on('data', (chunk) => (said.stderr += String(chunk)));
  return new Promise((resolve) => child.once('close', (code) => resolve({ code, ...said })));
}
