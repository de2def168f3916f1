/** Kannel's bearerbox and smsbox as processes of their own, between a fake carrier and the line, all on loopback. */
import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { join } from 'node:path';
import { listen } from '../../src/web/listen.ts';

/** Where Debian puts its programs. */
const BEARERBOX = '/usr/sbin/bearerbox';
const SMSBOX = '/usr/sbin/smsbox';

export const KANNEL_MISSING = [BEARERBOX, SMSBOX].filter((path) => !existsSync(path));

/** Loopback ports of one set of boxes. */
export interface KannelPorts {
  readonly admin: number;
  readonly boxes: number;
  /** Where the carrier brings texts from phones. */
  readonly carrier: number;
  /** Where the line hands over texts to phones. */
  readonly sendsms: number;
}

/** Ports that are free now. */
export async function freePorts(): Promise<KannelPorts> {
  const taken = await Promise.all(Array.from({ length: 4 }, () => listen(() => undefined, 0, '127.0.0.1')));
  await Promise.all(taken.map((one) => one.stop()));
  const [admin = 0, boxes = 0, carrier = 0, sendsms = 0] = taken.map(({ port }) => port);
  return { admin, boxes, carrier, sendsms };
}

/** The boxes' configuration: a carrier of HTTP's own kind at `carrierUrl`, and the groups that talk to the line. */
export function kannelConf(ports: KannelPorts, carrierUrl: string, lineGroups: string): string {
  return `
group = core
admin-port = ${ports.admin}
admin-password = admin-secret
admin-deny-ip = "*.*.*.*"
admin-allow-ip = "127.0.0.1"
smsbox-port = ${ports.boxes}
box-deny-ip = "*.*.*.*"
box-allow-ip = "127.0.0.1"
dlr-storage = internal
log-level = 2

group = smsc
smsc = http
smsc-id = fake
system-type = kannel
smsc-username = carrier
smsc-password = carrier-secret
port = ${ports.carrier}
connect-allow-ip = "127.0.0.1"
send-url = "${carrierUrl}/submit"
dlr-url = "http://127.0.0.1:${ports.carrier}/?username=carrier&password=carrier-secret"

group = smsbox
bearerbox-host = 127.0.0.1
sendsms-port = ${ports.sendsms}
log-level = 2

${lineGroups}
`;
}

/** Starts both boxes and waits until they take texts; `afterwards` ends them. */
export async function startKannel(
  folder: string,
  conf: string,
  ports: KannelPorts,
  afterwards: (undo: () => Promise<void>) => void,
): Promise<void> {
  const path = join(folder, 'kannel.conf');
  writeFileSync(path, conf);
  for (const [program, port] of [
    [BEARERBOX, ports.boxes],
    [SMSBOX, ports.sendsms],
  ] as const) {
    const child = spawn(program, [path], { cwd: folder, stdio: ['ignore', 'pipe', 'pipe'] });
    const words = wordsOf(child);
    afterwards(() => ended(child));
    await untilOpen(port, child, words);
  }
}

function wordsOf(child: ChildProcess): () => string {
  let words = '';
  for (const stream of [child.stdout, child.stderr]) stream?.on('data', (chunk) => (words += String(chunk)));
  return () => words;
}

function ended(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return Promise.resolve();
  return new Promise((resolve) => {
    child.once('exit', () => resolve());
    child.kill('SIGKILL');
  });
}

/** Rejects with the program's last words when it ends instead. */
async function untilOpen(port: number, child: ChildProcess, words: () => string): Promise<void> {
  while (!(await isOpen(port))) {
    if (child.exitCode !== null) throw new Error(`${child.spawnfile} ended: ${words()}`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

function isOpen(port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = connect(port, '127.0.0.1');
    const end = (open: boolean) => {
      socket.destroy();
      resolve(open);
    };
    socket.once('connect', () => end(true));
    socket.once('error', () => end(false));
  });
}
