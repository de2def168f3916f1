#!/usr/bin/env node
/** The commands beside the server: `node dist/cli.js NAME …`, run by the npm scripts of the same names. */
import { planCommand } from './commands/plan.ts';
import { type Config, readConfig } from './config.ts';
import { SchemeFileError } from './sweeps/seed-of-file.ts';

type Command = (args: readonly string[]) => number | Promise<number>;

const COMMANDS: Readonly<Record<string, () => Promise<Command>>> = {
  plan: async () => planCommand,
  hear: async () => (await import('./commands/hear.ts')).hearCommand,
  sheet: async () => (await import('./commands/sheet.ts')).sheetCommand,
  rulebook: async () => (await import('./commands/rulebook.ts')).rulebookCommand,
  sum: async () => (await import('./commands/sum.ts')).sumCommand,
  phone: async () => {
    const { phoneCommand } = await import('./commands/phone.ts');
    return (args) => withSettings((config) => phoneCommand(args, config));
  },
  import: async () => {
    const { importCommand } = await import('./commands/import.ts');
    return (args) => withSettings((config) => importCommand(args, config));
  },
  export: async () => {
    const { exportCommand } = await import('./commands/export.ts');
    return (args) => withSettings((config) => exportCommand(args, config));
  },
  ledger: async () => {
    const { ledgerCommand } = await import('./commands/ledger.ts');
    return (args) => withSettings((config) => ledgerCommand(args, config));
  },
  'carrier-check': async () => {
    const { carrierCheckCommand } = await import('./commands/carrier-check.ts');
    return (args) => withSettings((config) => carrierCheckCommand(args, config));
  },
  season: async () => (await import('./commands/season-command.ts')).seasonCommand,
  bench: async () => (await import('./commands/bench.ts')).benchCommand,
};

/** Lists what is wrong with the settings, or goes on. */
async function withSettings(run: (config: Config) => Promise<number>): Promise<number> {
  const reading = readConfig(process.env);
  if (reading.ok) return withScheme(() => run(reading.config));
  for (const mistake of reading.mistakes) console.error(mistake);
  return 2;
}

/** A scheme file with mistakes is told without a stack. */
async function withScheme(run: () => Promise<number>): Promise<number> {
  try {
    return await run();
  } catch (error) {
    if (!(error instanceof SchemeFileError)) throw error;
    console.error(error.message);
    return 2;
  }
}

const [name = '', ...args] = process.argv.slice(2);
const load = COMMANDS[name];
if (load) {
  process.exitCode = await (await load())(args);
} else {
  console.error(`Commands: ${Object.keys(COMMANDS).join(', ')}`);
  process.exitCode = 2;
}
