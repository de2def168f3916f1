/** `npm run -s carrier-check`: whether the carrier that is set, its secrets and the line's own address work, in plain words. It shows no secret. */
import { setTimeout } from 'node:timers/promises';
import { parseArgs } from 'node:util';
import type { GatewaySending } from '../carriers/gateway-carrier.ts';
import type { RestAccount } from '../carriers/rest-account.ts';
import { senderNumber } from '../sweeps/sender.ts';
import type { Secret } from '../web/gateway-guard.ts';
import type { Signing } from '../web/sms-route.ts';
import { checkAccount } from './carrier-checks/check-account.ts';
import { checkGateway, checkGatewayText } from './carrier-checks/check-gateway.ts';
import { checkDoor, checkSecret } from './carrier-checks/check-gateway-door.ts';
import { checkPublicUrl, checkSignature } from './carrier-checks/check-public-url.ts';
import { checkText } from './carrier-checks/check-text.ts';
import { type Finding, type Means, well, wrong } from './carrier-checks/finding.ts';

const USAGE = 'usage: npm run -s carrier-check -- [--text +447700900990]';
const REAL: Means = { fetchFrom: fetch, waitMs: (ms) => setTimeout(ms) };

/** What the check needs of the settings. */
export interface CheckedSettings {
  readonly port: number;
  readonly publicUrl: string | null;
  readonly carrier:
    | { readonly kind: 'desk' }
    | { readonly kind: 'gateway'; readonly gateway: CheckedGateway }
    | ({ readonly kind: 'twilio' } & Omit<RestAccount, 'statusUrl'>);
  readonly signing: Signing | null;
}

interface CheckedGateway {
  readonly sending: GatewaySending;
  readonly receiving: { readonly secret: Secret | null };
}

type Check = () => Finding | Promise<Finding>;

/** Runs it: 0 when all is well, 1 when something is wrong, 2 when the command is not understood. */
export async function carrierCheckCommand(
  args: readonly string[],
  settings: CheckedSettings,
  means: Means = REAL,
): Promise<number> {
  const asked = readArguments(args);
  if (asked === null) {
    console.error(USAGE);
    return 2;
  }
  let code = 0;
  for (const find of checksOf(settings, asked.to, means)) if (!print(await find())) code = 1;
  return code;
}

/** The checks of the carrier that is set, in their order; a number to text, or null. */
function checksOf(settings: CheckedSettings, to: string | null, means: Means): readonly Check[] {
  const { carrier, signing } = settings;
  if (carrier.kind === 'gateway') return gatewayChecks(carrier.gateway, settings, to, means);
  if (carrier.kind === 'desk' || signing === null) return [noPhones];
  const account = { ...carrier, statusUrl: null };
  return [
    () => checkAccount(account, means),
    () => checkPublicUrl(signing, means),
    () => checkSignature(signing, means),
    ...(to === null ? [] : [() => checkText(account, to, means)]),
  ];
}

function gatewayChecks(
  { sending, receiving: { secret } }: CheckedGateway,
  { publicUrl, port }: CheckedSettings,
  to: string | null,
  means: Means,
): readonly Check[] {
  const door = { publicUrl, port, secret };
  return [
    () => well('The gateway’s file has no mistakes.'),
    () => checkGateway(sending, means),
    () => checkDoor(door, means),
    () => checkSecret(door, means),
    ...(to === null ? [] : [() => checkGatewayText(sending, to, means)]),
  ];
}

function noPhones(): Finding {
  return wrong(
    'The carrier is the desk: no real phone is reached.',
    'Set BUNDLINE_CARRIER to twilio or gateway, with what README names under "Real phones".',
  );
}

/** True when all is well. */
function print({ what, mend }: Finding): boolean {
  console.log(`${mend === null ? 'good ' : 'WRONG'}  ${what}`);
  if (mend !== null) console.log(`       ${mend}`);
  return mend === null;
}

/** Null for what is not understood, also for a number that is none. */
function readArguments(args: readonly string[]): { readonly to: string | null } | null {
  try {
    const { text } = parseArgs({ args: [...args], options: { text: { type: 'string' } } }).values;
    if (text === undefined) return { to: null };
    const to = text.startsWith('+') ? senderNumber(text, 'GB') : null;
    return to === null ? null : { to };
  } catch {
    return null;
  }
}
