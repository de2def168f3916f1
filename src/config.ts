/** Settings of the service, read from the environment; every mistake is listed, none is guessed away. */
import { existsSync } from 'node:fs';
import { z } from 'zod';
import { CARRIER_SETTINGS, carrierMistakes, textsPhones } from './carrier-settings.ts';
import { unreadAt } from './file-unread.ts';
import { type Gateway, readGateway } from './gateway-config.ts';
import { unknownSettings } from './known-settings.ts';
import { readUssdConfig, USSD_SETTINGS } from './ussd-config.ts';
import type { UssdShape } from './web/ussd/shape.ts';

export interface Config {
  readonly port: number;
  /** Path of the database file. */
  readonly databasePath: string;
  /** Path of a scheme file; null when none is named. */
  readonly schemePath: string | null;
  /** Where a simulated clock starts, in milliseconds since the epoch; null for the machine's clock. */
  readonly clockStartMs: number | null;
  readonly carrier: CarrierConfig;
  /** What requests are signed with; null accepts unsigned requests, from this machine only. */
  readonly signing: { readonly token: string; readonly publicUrl: string } | null;
  /** The address at which others reach the line, perhaps with a path before its own; null when none is set. */
  readonly publicUrl: string | null;
  /** How numbered screens look on the wire. */
  readonly ussd: UssdShape;
  readonly logLevel: (typeof LOG_LEVELS)[number];
}

/** Who carries the texts: nobody (the desk), an HTTP gateway, or an account behind the Twilio-compatible interface. */
export type CarrierConfig =
  | { readonly kind: 'desk' }
  | { readonly kind: 'gateway'; readonly gateway: Gateway }
  | {
      readonly kind: 'twilio';
      /** "https://api.example.org", without a path. */
      readonly baseUrl: string;
      readonly accountSid: string;
      readonly token: string;
      readonly from: string;
      readonly partsPerSecond: number;
    };

export type ConfigReading =
  | { readonly ok: true; readonly config: Config }
  | { readonly ok: false; readonly mistakes: readonly string[] };

const LOG_LEVELS = ['trace', 'debug', 'info', 'warn', 'error', 'fatal', 'silent'] as const;

const USUAL_DATABASE = 'data/line.db';

const schema = z.object({
  PORT: z
    .string()
    .regex(/^\d{1,5}$/, 'must be a port number, 0 to 65535')
    .transform(Number)
    .refine((port) => port <= 65535, 'must be a port number, 0 to 65535')
    .default(8080),
  BUNDLINE_DB: z.string().default(USUAL_DATABASE),
  BUNDLINE_SCHEME: z.string().optional(),
  BUNDLINE_CLOCK: z
    .string()
    .refine(
      (text) => clockMs(text) !== null,
      'must be a date or an instant, like 2027-03-10 or 2027-03-10T07:00:00Z',
    )
    .optional(),
  BUNDLINE_CARRIER: z.enum(['desk', 'gateway', 'twilio'], 'must be desk, gateway or twilio').default('desk'),
  BUNDLINE_GATEWAY: z.string().optional(),
  ...CARRIER_SETTINGS,
  BUNDLINE_PARTS_PER_SECOND: z.coerce
    .number('must be a number of parts, like 1 or 0.5')
    .min(0.1, 'must be from 0.1 to 1000')
    .max(1000, 'must be from 0.1 to 1000')
    .default(1),
  BUNDLINE_LOG_LEVEL: z.enum(LOG_LEVELS, `must be one of ${LOG_LEVELS.join(', ')}`).default('info'),
});

type Settings = z.infer<typeof schema>;

type Environment = Readonly<Record<string, string | undefined>>;

const KNOWN = [...Object.keys(schema.shape), ...USSD_SETTINGS];

/** Reads the settings; an empty variable counts as not set. Of values only paths are shown: others may be secrets. */
export function readConfig(environment: Environment): ConfigReading {
  const given = setIn(environment);
  const read = schema.safeParse(given);
  const single = read.success
    ? []
    : read.error.issues.map((issue) => `${String(issue.path[0])} ${issue.message}`);
  const gateway = gatewayIn(given);
  const screens = readUssdConfig(given);
  const ofScreens = screens.ok ? [] : screens.mistakes;
  const files = [...unreadScheme(given), ...gateway.mistakes];
  const unknown = unknownSettings(given, KNOWN);
  const mistakes = [...single, ...carrierMistakes(given), ...files, ...ofScreens, ...unknown];
  if (!read.success || !screens.ok || mistakes.length > 0) return { ok: false, mistakes };
  return { ok: true, config: { ...configOf(read.data, gateway.found), ussd: screens.ussd } };
}

/** Reads the settings of a start, which may text real phones only for a scheme that somebody has named. */
export function readStartConfig(environment: Environment): ConfigReading {
  const reading = readConfig(environment);
  const given = setIn(environment);
  const path = given['BUNDLINE_DB'] ?? USUAL_DATABASE;
  if (!textsPhones(given) || given['BUNDLINE_SCHEME'] !== undefined || existsSync(path)) return reading;
  return { ok: false, mistakes: [...(reading.ok ? [] : reading.mistakes), schemeMissing(path)] };
}

/** What is said when there is no scheme to text real phones for. */
export function schemeMissing(databasePath: string): string {
  return `BUNDLINE_SCHEME must name your scheme’s file: ${databasePath} holds no scheme yet, and with real phones the demo is not used`;
}

function setIn(environment: Environment): Environment {
  return Object.fromEntries(Object.entries(environment).filter(([, value]) => value?.trim() !== ''));
}

function unreadScheme({ BUNDLINE_SCHEME: path }: Environment): readonly string[] {
  const why = path === undefined ? null : unreadAt(path);
  return why === null ? [] : [`BUNDLINE_SCHEME ${path} ${why}`];
}

/** The gateway of the file that is named, when texts go through one. */
function gatewayIn(given: Environment): {
  readonly found: Gateway | null;
  readonly mistakes: readonly string[];
} {
  if (given['BUNDLINE_CARRIER'] !== 'gateway') return { found: null, mistakes: [] };
  const path = given['BUNDLINE_GATEWAY'];
  if (path === undefined)
    return { found: null, mistakes: ['BUNDLINE_GATEWAY must name the file that tells how to talk to it'] };
  const read = readGateway(path);
  if (read.ok) return { found: read.gateway, mistakes: [] };
  return { found: null, mistakes: read.mistakes.map((mistake) => `BUNDLINE_GATEWAY ${path}: ${mistake}`) };
}

function configOf(settings: Settings, gateway: Gateway | null): Omit<Config, 'ussd'> {
  const { BUNDLINE_TWILIO_TOKEN: token, BUNDLINE_PUBLIC_URL: publicUrl } = settings;
  return {
    port: settings.PORT,
    databasePath: settings.BUNDLINE_DB,
    schemePath: settings.BUNDLINE_SCHEME ?? null,
    clockStartMs: settings.BUNDLINE_CLOCK === undefined ? null : clockMs(settings.BUNDLINE_CLOCK),
    carrier: gateway === null ? carrierOf(settings) : { kind: 'gateway', gateway },
    publicUrl: publicUrl ?? null,
    signing: token === undefined || publicUrl === undefined ? null : { token, publicUrl },
    logLevel: settings.BUNDLINE_LOG_LEVEL,
  };
}

function carrierOf(settings: Settings): CarrierConfig {
  const { BUNDLINE_CARRIER: kind, BUNDLINE_TWILIO_ACCOUNT: accountSid } = settings;
  const { BUNDLINE_TWILIO_TOKEN: token, BUNDLINE_TWILIO_FROM: from } = settings;
  if (kind !== 'twilio' || accountSid === undefined || token === undefined || from === undefined)
    return { kind: 'desk' };
  const { BUNDLINE_TWILIO_URL: baseUrl, BUNDLINE_PARTS_PER_SECOND: partsPerSecond } = settings;
  return { kind, baseUrl, accountSid, token, from, partsPerSecond };
}

/** "2027-03-10" (midnight UTC) or a full instant with its zone; null for anything else. */
function clockMs(text: string): number | null {
  if (!/^\d{4}-\d{2}-\d{2}(T\d{2}:\d{2}(:\d{2}(\.\d+)?)?(Z|[+-]\d{2}:\d{2}))?$/.test(text)) return null;
  const ms = Date.parse(text);
  const day = text.slice(0, 10);
  const real = new Date(`${day}T00:00:00Z`);
  return Number.isNaN(ms) || Number.isNaN(real.getTime()) || real.toISOString().slice(0, 10) !== day
    ? null
    : ms;
}
