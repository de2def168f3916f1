/** Starts the line: settings, database, scheme, sweeps and HTTP; and ends it without losing what it has begun. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { pino } from 'pino';
import { DEFAULT_RULEBOOK } from './agronomy/rules/default-rulebook.ts';
import type { Carrier } from './carriers/carrier.ts';
import { deskCarrier } from './carriers/desk.ts';
import { gatewayCarrier } from './carriers/gateway-carrier.ts';
import { restCarrier } from './carriers/rest-carrier.ts';
import { listTextsIn } from './carriers/rest-list.ts';
import { clockFrom, realClock } from './clock.ts';
import { type Config, readStartConfig, schemeMissing } from './config.ts';
import { whyUnread } from './file-unread.ts';
import { listeningHost } from './listening-host.ts';
import { randomId } from './store/ids.ts';
import { faultNote } from './sweeps/fault-note.ts';
import { startFetching } from './sweeps/fetch-missed.ts';
import type { Log, Voice } from './sweeps/line.ts';
import { NoSchemeError, type OpenLine, openLine } from './sweeps/open-line.ts';
import { readVoices } from './sweeps/read-voices.ts';
import { realTalk } from './sweeps/real-talk.ts';
import { SchemeFileError } from './sweeps/seed-of-file.ts';
import { startSweeps } from './sweeps/start-sweeps.ts';
import { createApp, receiptUrl } from './web/create-app.ts';
import { type Listening, listen } from './web/listen.ts';
import { takeText } from './web/take-text.ts';

const DEMO_SCHEME = fileURLToPath(new URL('../scripts/demo/orrowe-valley.yaml', import.meta.url));

/** A start that cannot go on, with what to mend; it is printed as it is, without a stack. */
class StartError extends Error {}

async function main(): Promise<void> {
  const reading = readStartConfig(process.env);
  if (!reading.ok) throw new StartError(reading.mistakes.join('\n'));
  const { config } = reading;
  const log = pino({ level: config.logLevel }, pino.destination({ dest: 2, sync: true }));
  const line = await openConfigured(config, log);
  const listening = await listenConfigured(config, line);
  const [stopSweeps, stopFetching] = [startSweeps(line), fetchingFor(config, line)];
  endOnSignal(line, listening, async () => {
    await Promise.all([stopSweeps(), stopFetching()]);
  });
  process.stdout.write(greeting(config, line, listening.port));
}

async function openConfigured(config: Config, log: Log): Promise<OpenLine> {
  const { schemePath, clockStartMs } = config;
  const clock = clockStartMs === null ? realClock : clockFrom(clockStartMs);
  try {
    return await openLine({
      path: config.databasePath,
      clock,
      makeId: randomId,
      carrier: carrierFor(config),
      talk: realTalk,
      log,
      voices: spokenVoices(),
      rulebook: DEFAULT_RULEBOOK,
      schemeText: schemePath === null ? null : readScheme(schemePath),
      ...(config.carrier.kind === 'desk' && { demoText: readScheme(DEMO_SCHEME) }),
    });
  } catch (error) {
    if (error instanceof StartError) throw error;
    if (error instanceof SchemeFileError)
      throw new StartError(prefixed(`${schemePath ?? DEMO_SCHEME}: `, error.message));
    if (error instanceof NoSchemeError) throw new StartError(schemeMissing(config.databasePath));
    const { message } = faultNote(error);
    throw new StartError(`The database ${config.databasePath} cannot be used: ${message}`, { cause: error });
  }
}

function carrierFor({ carrier, signing }: Config): Carrier {
  if (carrier.kind === 'desk') return deskCarrier();
  if (carrier.kind === 'gateway') return gatewayCarrier(carrier.gateway.sending);
  return restCarrier({ ...carrier, statusUrl: signing === null ? null : receiptUrl(signing.publicUrl) });
}

/** Only a real carrier has a list of texts that were missed. */
function fetchingFor({ carrier }: Config, line: OpenLine): () => Promise<void> {
  if (carrier.kind !== 'twilio') return async () => {};
  return startFetching(line, {
    list: (sinceMs) => listTextsIn(carrier, sinceMs),
    take: (text) => takeText(line, text),
  });
}

function spokenVoices(): readonly Voice[] {
  try {
    return readVoices();
  } catch (error) {
    throw new StartError(`The languages cannot be used: ${faultNote(error).message}`, { cause: error });
  }
}

function readScheme(path: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch (error) {
    throw new StartError(`BUNDLINE_SCHEME ${path} ${whyUnread(error)}`, { cause: error });
  }
}

function prefixed(prefix: string, lines: string): string {
  return lines.replace(/^/gm, prefix);
}

async function listenConfigured(config: Config, line: OpenLine): Promise<Listening> {
  try {
    const gateway = config.carrier.kind === 'gateway' ? config.carrier.gateway : null;
    const app = createApp(line, { signing: config.signing, gateway, ussd: config.ussd });
    return await listen(app, config.port, listeningHost(config));
  } catch (error) {
    await line.close();
    const { code } = error as NodeJS.ErrnoException;
    const why =
      code === 'EADDRINUSE' ? 'is in use; set PORT to another' : `cannot be used (${code ?? 'unknown'})`;
    throw new StartError(`Port ${config.port} ${why}`, { cause: error });
  }
}

function endOnSignal(line: OpenLine, listening: Listening, stopSweeps: () => Promise<void>): void {
  let ending = false;
  const end = async () => {
    if (ending) return;
    ending = true;
    await listening.stop();
    await stopSweeps();
    await line.close();
  };
  for (const signal of ['SIGTERM', 'SIGINT'] as const) {
    process.on(signal, () => {
      end().then(
        () => process.exit(0),
        () => process.exit(1),
      );
    });
  }
}

function greeting(config: Config, line: OpenLine, port: number): string {
  const schemes = line.schemes().map(({ world }) => world.name);
  const told = `Bundline serves ${schemes.join(' and ')} on port ${port}; data in ${config.databasePath}.`;
  const screens =
    config.ussd.secret === null ? [] : [`Screens are taken at /ussd, from whoever has the secret.`];
  return [told, ...textsTaken(config, port), ...screens, ''].join('\n');
}

function textsTaken({ carrier, signing }: Config, port: number): readonly string[] {
  if (carrier.kind === 'gateway') {
    const who = carrier.gateway.receiving.secret === null ? 'this machine only' : 'whoever has the secret';
    return [`Texts are taken at http://127.0.0.1:${port}/gateway, from ${who}.`];
  }
  if (signing !== null) return [`Texts are taken at ${signing.publicUrl.replace(/\/+$/, '')}/sms, signed.`];
  const form = '-d MessageSid=SM1 --data-urlencode From=+447700900001 -d To=+447700900999 -d Body=MENU';
  return [`Text it:  curl ${form} http://127.0.0.1:${port}/sms`, 'Or:       npm run -s phone'];
}

main().catch((error: unknown) => {
  const text = error instanceof StartError ? error.message : String(faultNote(error).message);
  process.stderr.write(`${text}\n`);
  process.exitCode = 1;
});
