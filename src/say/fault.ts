/** Faults of a catalogue or of the program that uses it. They throw: a text with a hole in it must never reach a phone. */

/** Every code with what it means. */
export const SAY_FAULTS = {
  'bad-catalogue': 'the catalogue or calendar data of this language are malformed',
  'missing-key': 'the catalogue has no such message',
  'missing-plural': 'the message lacks the plural form that this count needs',
  'missing-value': 'the message has placeholders that were given no value',
  'unused-value': 'values were given that the message does not use',
  'bad-value': 'a value is not a finite number, a whole day, or a list of at least one thing',
  'empty-saying': 'a saying needs at least one sentence that is not spare',
  'missing-sample': 'placeholders have no sample value',
} as const;

export type SayFault = keyof typeof SAY_FAULTS;

/** Says what is wrong, with which message, in which language; never holds a value, which may be a person's. */
export class SayError extends Error {
  override readonly name = 'SayError';
  readonly code: SayFault;
  readonly key: string;
  /** Names of the placeholders, keys or fields concerned. */
  readonly names: readonly string[];

  constructor(code: SayFault, lang: string, key: string, names: readonly string[] = []) {
    const which = names.length > 0 ? `: ${names.join(', ')}` : '';
    super(`${code} in "${key}" (${lang}): ${SAY_FAULTS[code]}${which}`);
    this.code = code;
    this.key = key;
    this.names = names;
  }
}
