/** A fault as the log may show it: what and where, without the numbers and words of anyone's text. */

const LONG_DIGITS = /\+?\d[\d\s().-]{5,}\d/g;

/** What a log line says of an error; anything that could be a phone number is taken out. */
export interface FaultNote {
  readonly name: string;
  readonly message: string;
  readonly stack: string;
}

/** The note of anything thrown, with its causes' messages joined. */
export function faultNote(error: unknown): FaultNote {
  if (!(error instanceof Error))
    return { name: typeof error, message: 'a value that is no error', stack: '' };
  const cause = error.cause === undefined ? '' : `; caused by ${faultNote(error.cause).message}`;
  return {
    name: error.name,
    message: withoutNumbers(error.message) + cause,
    stack: withoutNumbers((error.stack ?? '').split('\n').slice(1, 8).join('\n')),
  };
}

/** The last two digits of a phone number: enough to follow a thread in the log, not to find a person. */
export function phoneTail(number: string): string {
  return `..${number.slice(-2)}`;
}

function withoutNumbers(text: string): string {
  return text.replace(LONG_DIGITS, '[digits]');
}
