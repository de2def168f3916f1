/** Runs the command `sum` in this process: its code, what it printed, and what it complained of. */
import { vi } from 'vitest';
import { sumCommand } from '../../src/commands/sum.ts';

export interface RunSum {
  readonly code: number;
  readonly out: readonly string[];
  readonly err: readonly string[];
}

/** `runSum('level --area 0.4 4 6 9 12 5')`. */
export function runSum(line: string): RunSum {
  const [out, err]: [string[], string[]] = [[], []];
  const log = vi.spyOn(console, 'log').mockImplementation((text: unknown) => void out.push(String(text)));
  const error = vi.spyOn(console, 'error').mockImplementation((text: unknown) => void err.push(String(text)));
  try {
    return { code: sumCommand(line.split(' ')), out, err };
  } finally {
    log.mockRestore();
    error.mockRestore();
  }
}

/** The JSON that was printed; a test whose sum is refused is broken and throws. */
export function printedSum(line: string): Readonly<Record<string, unknown>> {
  const { code, out, err } = runSum(line);
  if (code !== 0 || out.length !== 1) throw new Error(`sum ${line}: ${err.join(' ')}`);
  return JSON.parse(out[0] ?? '') as Record<string, unknown>;
}
