/** `npm run -s carrier-check`: whether the carrier, its token and the public address work, in plain words. It shows no token. */
import { setTimeout } from 'node:timers/promises';
import { parseArgs } from 'node:util';
import type { RestAccount } from '../carriers/rest-account.ts';
import { senderNumber } from '../sweeps/sender.ts';
import type { Signing } from '../web/sms-route.ts';
import { checkAccount } from './carrier-checks/check-account.ts';
import { checkPublicUrl, checkSignature } from './carrier-checks/check-public-url.ts';
import { checkText } from './carrier-checks/check-text.ts';
import type { Finding, Means } from './carrier-checks/finding.ts';

const USAGE = 'usage: npm run -s carrier-check -- [--text +447700900990]';
const REAL: Means = { fetchFrom: fetch, waitMs: (ms) => setTimeout(ms) };

/** What the check needs of the settings. */
export interface CheckedSettings {
  readonly carrier:
    | { readonly kind: 'desk' | 'gateway' }
    | ({ readonly kind: 'twilio' } & Omit<RestAccount, 'statusUrl'>);
  readonly signing: Signing | null;
}

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
  const { carrier, signing } = settings;
  if (carrier.kind !== 'twilio' || signing === null) {
    console.log('WRONG  No account of a carrier is set: there is nothing to check.');
    console.log('       Set BUNDLINE_CARRIER=twilio and what README names beside it.');
    return 1;
  }
  const account = { ...carrier, statusUrl: null };
  const findings = [
    () => checkAccount(account, means),
    () => checkPublicUrl(signing, means),
    () => checkSignature(signing, means),
    ...(asked.to === null ? [] : [() => checkText(account, asked.to ?? '', means)]),
  ];
  let code = 0;
  for (const find of findings) if (!print(await find())) code = 1;
  return code;
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
