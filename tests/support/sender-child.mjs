/**
 * A line of its own that sends once what is due to a carrier over HTTP: for tests that kill it, or run two at once. "ready" on
 * stdout says that it is open; it begins when a line comes in. "holding" says that a text is on lease and not yet sent, where
 * it then stays when it was told to hold. Last it says how many texts were taken.
 */
import { once } from 'node:events';
import { writeSync } from 'node:fs';
import { DEFAULT_RULEBOOK } from '../../dist/agronomy/rules/default-rulebook.js';
import { restCarrier } from '../../dist/carriers/rest-carrier.js';
import { clockFrom } from '../../dist/clock.js';
import { randomId } from '../../dist/store/ids.js';
import { openLine } from '../../dist/sweeps/open-line.js';
import { realTalk } from '../../dist/sweeps/real-talk.js';
import { sweepOutbox } from '../../dist/sweeps/sweep-outbox.js';

const { path, account, nowMs, hold } = JSON.parse(process.argv[2]);
const rest = restCarrier(account);
const send = async (text) => {
  writeSync(1, 'holding\n');
  if (hold) await new Promise(() => setInterval(() => undefined, 1000));
  return rest.send(text);
};
const complain = (_facts, message) => console.error(message);
const line = await openLine({
  path,
  carrier: { ...rest, send },
  clock: clockFrom(nowMs),
  makeId: randomId,
  talk: realTalk,
  voices: [{ lang: 'en', whyTaken: () => null }],
  rulebook: DEFAULT_RULEBOOK,
  schemeText: null,
  log: { info: () => undefined, warn: complain, error: complain },
});
writeSync(1, 'ready\n');
await once(process.stdin, 'data');
process.stdin.pause();
writeSync(1, `taken ${await sweepOutbox(line)}\n`);
await line.close();
