/** `bench`: measures the line against floors in the same run, and prints ratios. It judges nothing; tests never time. */
import { cpus } from 'node:os';
import { benchBlock } from './bench-block.ts';
import { benchBroadcast } from './bench-broadcast.ts';
import { benchGroup } from './bench-group.ts';
import { benchHear } from './bench-hear.ts';
import { benchOutbox } from './bench-outbox.ts';
import { benchPlans } from './bench-plans.ts';
import { benchSweep } from './bench-sweep.ts';
import { benchUssd } from './bench-ussd.ts';
import { benchWebhook } from './bench-webhook.ts';

const PARTS: Readonly<Record<string, () => Promise<readonly string[]>>> = {
  webhook: benchWebhook,
  hear: benchHear,
  plans: benchPlans,
  block: benchBlock,
  sweep: benchSweep,
  broadcast: benchBroadcast,
  outbox: benchOutbox,
  group: benchGroup,
  ussd: benchUssd,
};

/** Runs the named parts, all when none is named; returns the exit code. */
export async function benchCommand(args: readonly string[]): Promise<number> {
  const names = args.length > 0 ? args : Object.keys(PARTS);
  const unknown = names.filter((name) => !PARTS[name]);
  if (unknown.length > 0) {
    console.error(`usage: npm run bench -- [${Object.keys(PARTS).join('] [')}]`);
    return 2;
  }
  console.log(`Node ${process.version}, ${cpus().length} x ${cpus()[0]?.model ?? 'unknown processor'}`);
  for (const name of names) {
    for (const row of (await PARTS[name]?.()) ?? []) console.log(row);
  }
  return 0;
}
