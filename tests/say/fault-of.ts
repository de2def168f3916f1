import { SayError } from '../../src/say/fault.ts';

/** The SayError that this throws; fails the test when it throws none. */
export function faultOf(act: () => unknown): SayError {
  try {
    act();
  } catch (error) {
    if (error instanceof SayError) return error;
    throw error;
  }
  throw new Error('nothing was thrown');
}
