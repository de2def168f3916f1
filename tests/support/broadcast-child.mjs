/**
 * A line of its own that does what is due, until everything is told: for a test that kills it. Its carrier writes each text
 * that it takes into a file, and drops one whose key it has taken before, as carriers with idempotency keys do. A dot on stdout
 * stands for each piece of work before its commit and each text before it is taken; after a dot it waits a little, for the kill.
 */
import { appendFileSync, existsSync, readFileSync, writeSync } from 'node:fs';
import { setTimeout } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { DEFAULT_RULEBOOK } from '../../dist/agronomy/rules/default-rulebook.js';
import { clockFrom } from '../../dist/clock.js';
import { openCatalogue } from '../../dist/say/catalogue.js';
import { say } from '../../dist/say/say.js';
import { randomId } from '../../dist/store/ids.js';
import { openLine } from '../../dist/sweeps/open-line.js';
import { realTalk } from '../../dist/sweeps/real-talk.js';
import { sweepBroadcasts } from '../../dist/sweeps/sweep-broadcasts.js';
import { sweepDeliveries } from '../../dist/sweeps/sweep-deliveries.js';
import { sweepOutbox } from '../../dist/sweeps/sweep-outbox.js';

const [path, taken, startMs] = process.argv.slice(2);
const linesOf = (file) => (existsSync(file) ? readFileSync(file, 'utf8').split('\n') : []);
const keys = new Set(linesOf(taken).map((line) => line.split(' ')[0]));

const dot = (waitMs) => {
  writeSync(1, '.');
  return setTimeout(waitMs);
};
const carrier = {
  name: 'file',
  simulated: true,
  partsPerSecond: null,
  send: async ({ to, key }) => {
    await dot(2);
    if (!keys.has(key)) {
      keys.add(key);
      appendFileSync(taken, `${key} ${to}\n`);
    }
    return { kind: 'handed', carrierId: key };
  },
};
/** English, said but not heard: to read its words would take longer than all the rest. */
const locale = (file) =>
  JSON.parse(readFileSync(fileURLToPath(new URL(`../../locales/en/${file}`, import.meta.url)), 'utf8'));
const catalogue = openCatalogue({
  lang: 'en',
  messages: locale('messages.json'),
  calendar: locale('calendar.json'),
});
const voice = {
  lang: 'en',
  whyTaken: () => null,
  say: (saying, budgetParts) => say(saying, catalogue, budgetParts).text,
};
const complain = (_facts, message) => console.error(message);
const line = await openLine({
  path,
  carrier,
  clock: clockFrom(Number(startMs)),
  makeId: randomId,
  talk: realTalk,
  voices: [voice],
  rulebook: DEFAULT_RULEBOOK,
  schemeText: null,
  log: { info: () => undefined, warn: complain, error: complain },
});
const together = (work) =>
  line.together(async (trx) => {
    const result = await work(trx);
    await dot(10);
    return result;
  });
await sweepBroadcasts({ ...line, together });
await sweepOutbox(line);
await sweepDeliveries(line);
await line.close();
