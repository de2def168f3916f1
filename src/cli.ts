#!/usr/bin/env node
/** The commands beside the server: `node dist/cli.js NAME …`, run by the npm scripts of the same names. */
import { planCommand } from './commands/plan.ts';

type Command = (args: readonly string[]) => number | Promise<number>;

const COMMANDS: Readonly<Record<string, () => Promise<Command>>> = {
  plan: async () => planCommand,
  hear: async () => (await import('./commands/hear.ts')).hearCommand,
  sheet: async () => (await import('./commands/sheet.ts')).sheetCommand,
  phone: async () => (await import('./commands/phone.ts')).phoneCommand,
  season: async () => (await import('./commands/season.ts')).seasonCommand,
  bench: async () => (await import('./commands/bench.ts')).benchCommand,
};

const [name = '', ...args] = process.argv.slice(2);
const load = COMMANDS[name];
if (load) {
  process.exitCode = await (await load())(args);
} else {
  console.error(`Commands: ${Object.keys(COMMANDS).join(', ')}`);
  process.exitCode = 2;
}
