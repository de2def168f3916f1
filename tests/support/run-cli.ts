/** The built commands as processes of their own. */
import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Ended } from './real-server.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));

/** Runs `node dist/cli.js …`, built before, to its end: this text on stdin, no settings but those given. */
export function runCli(
  args: readonly string[],
  { input = '', settings = {} }: { input?: string; settings?: Readonly<Record<string, string>> } = {},
): Promise<Ended> {
  const env = { PATH: process.env['PATH'], ...settings };
  const child = spawn(process.execPath, ['dist/cli.js', ...args], { cwd: ROOT, env });
  const said = { stdout: '', stderr: '' };
  child.stdout.on('data', (chunk) => (said.stdout += String(chunk)));
  child.stderr.on('data', (chunk) => (said.stderr += String(chunk)));
  child.stdin.on('error', () => undefined);
  child.stdin.end(input);
  return new Promise((resolve) => child.once('close', (code) => resolve({ code, ...said })));
}
