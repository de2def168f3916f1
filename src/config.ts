/** Settings of the service, read from the environment; every mistake is listed, none is guessed away. */
import { z } from 'zod';
import { type Gateway, readGateway } from './gateway-config.ts';
import { readUssdConfig } from './ussd-config.ts';
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

const addressSchema = z
  .string()
  .regex(/^https?:\/\/[^\s/?#]+\/*$/, 'must be an address without a path, like https://line.example.org');

const schema = z.object({
  PORT: z
    .string()
    .regex(/^\d{1,5}$/, 'must be a port number, 0 to 65535')
    .transform(Number)
    .refine((port) => port <= 65535, 'must be a port number, 0 to 65535')
    .default(8080),
  BUNDLINE_DB: z.string().default('data/line.db'),
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
  BUNDLINE_TWILIO_URL: addressSchema.default('https://api.twilio.com'),
  BUNDLINE_TWILIO_ACCOUNT: z.string().optional(),
  BUNDLINE_TWILIO_TOKEN: z.string().optional(),
  BUNDLINE_TWILIO_FROM: z.string().optional(),
  BUNDLINE_PARTS_PER_SECOND: z.coerce
    .number('must be a number of parts, like 1 or 0.5')
    .min(0.1, 'must be from 0.1 to 1000')
    .max(1000, 'must be from 0.1 to 1000')
    .default(1),
  BUNDLINE_PUBLIC_URL: addressSchema.optional(),
  BUNDLINE_LOG_LEVEL: z.enum(LOG_LEVELS, `must be one of ${LOG_LEVELS.join(', ')}`).default('info'),
});

type Settings = z.infer<typeof schema>;

/** Reads the settings; an empty variable counts as not set. No value is shown in a mistake: it may be a secret. */
export function readConfig(environment: Readonly<Record<string, string | undefined>>): ConfigReading {
  const given = Object.fromEntries(Object.entries(environment).filter(([, value]) => value?.trim() !== ''));
  const read = schema.safeParse(given);
  const single = read.success
    ? []
    : read.error.issues.map((issue) => `${String(issue.path[0])} ${issue.message}`);
  const gateway = gatewayIn(given);
  const screens = readUssdConfig(given);
  const ofScreens = screens.ok ? [] : screens.mistakes;
  const mistakes = [...single, ...carrierMistakes(given), ...gateway.mistakes, ...ofScreens];
  if (!read.success || !screens.ok || mistakes.length > 0) return { ok: false, mistakes };
  return { ok: true, config: { ...configOf(read.data, gateway.found), ussd: screens.ussd } };
}

/** The gateway of the file that is named, when texts go through one. */
function gatewayIn(given: Readonly<Record<string, string | undefined>>): {
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

/** What must hold between settings; also when one of them is wrong by itself. */
function carrierMistakes(given: Readonly<Record<string, string | undefined>>): readonly string[] {
  const mistakes: string[] = [];
  const real = given['BUNDLINE_CARRIER'] === 'twilio';
  if (real && given['BUNDLINE_TWILIO_TOKEN'] === undefined) {
    mistakes.push('BUNDLINE_TWILIO_TOKEN must be set with a real carrier: requests are checked with it');
  }
  if (real && given['BUNDLINE_TWILIO_ACCOUNT'] === undefined) {
    mistakes.push('BUNDLINE_TWILIO_ACCOUNT must be set with a real carrier: texts are sent in its name');
  }
  if (real && given['BUNDLINE_TWILIO_FROM'] === undefined) {
    mistakes.push('BUNDLINE_TWILIO_FROM must be set with a real carrier: the number that texts come from');
  }
  if ((real || given['BUNDLINE_TWILIO_TOKEN'] !== undefined) && given['BUNDLINE_PUBLIC_URL'] === undefined) {
    mistakes.push('BUNDLINE_PUBLIC_URL must be set with a token: the carrier signs the address it calls');
  }
  const phones = real || given['BUNDLINE_CARRIER'] === 'gateway';
  if (phones && given['BUNDLINE_CLOCK'] !== undefined) {
    mistakes.push('BUNDLINE_CLOCK must not be set with a real carrier: real phones live in real time');
  }
  return mistakes;
}

function configOf(settings: Settings, gateway: Gateway | null): Omit<Config, 'ussd'> {
  const { BUNDLINE_TWILIO_TOKEN: token, BUNDLINE_PUBLIC_URL: publicUrl } = settings;
  return {
    port: settings.PORT,
    databasePath: settings.BUNDLINE_DB,
    schemePath: settings.BUNDLINE_SCHEME ?? null,
    clockStartMs: settings.BUNDLINE_CLOCK === undefined ? null : clockMs(settings.BUNDLINE_CLOCK),
    carrier: gateway === null ? carrierOf(settings) : { kind: 'gateway', gateway },
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
