/** Reads the messages of one language: those of texts, and those of numbered screens in a file of their own. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Files of messages; what the later one has is added. */
const TEXTS = 'messages.json';
const SCREENS = 'screens.json';

/** All messages of a language's folder as one tree; a folder without screens has no messages for them. */
export function readMessages(folder: string): unknown {
  const read = (file: string): object => JSON.parse(readFileSync(join(folder, file), 'utf8')) as object;
  const screens = existsSync(join(folder, SCREENS)) ? read(SCREENS) : {};
  return { ...read(TEXTS), ...screens };
}
