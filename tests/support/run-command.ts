/** Runs a command in this process: its code, what it printed, and what it complained of. */
import { vi } from 'vitest';

export interface RunCommand {
  readonly code: number;
  readonly out: readonly string[];
  readonly err: readonly string[];
}

/** `runCommand(() => importCommand(['people.csv'], settings))`. */
export async function runCommand(command: () => number | Promise<number>): Promise<RunCommand> {
  const [out, err]: [string[], string[]] = [[], []];
  const log = vi.spyOn(console, 'log').mockImplementation((text: unknown) => void out.push(String(text)));
  const error = vi.spyOn(console, 'error').mockImplementation((text: unknown) => void err.push(String(text)));
  try {
    return { code: await command(), out, err };
  } finally {
    log.mockRestore();
    error.mockRestore();
  }
}
