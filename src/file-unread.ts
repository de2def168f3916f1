/** Why a file that a setting names cannot be read, in plain words. */
import { readFileSync } from 'node:fs';

const WORDS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EISDIR: 'it is a folder',
  ENOTDIR: 'a part of its path is no folder',
  EACCES: 'this user may not read it',
  EPERM: 'this user may not read it',
};

/** The reason of a failed reading: "cannot be read: there is no such file (ENOENT)". */
export function whyUnread(error: unknown): string {
  const code = (error as NodeJS.ErrnoException).code ?? 'no reason given';
  const words = WORDS[code];
  return words === undefined ? `cannot be read (${code})` : `cannot be read: ${words} (${code})`;
}

/** Why nothing can be read at this path; null when something can. */
export function unreadAt(path: string): string | null {
  try {
    readFileSync(path);
    return null;
  } catch (error) {
    return whyUnread(error);
  }
}
