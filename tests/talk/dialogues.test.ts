/** Dialogues in files: texts in, texts out, the day. Rewritten with UPDATE=1, and read by a person before they are kept. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { play } from '../support/dialogue.ts';

const FOLDER = join(import.meta.dirname, 'dialogues');

describe.each(readdirSync(FOLDER).filter((name) => name.endsWith('.txt')))('%s', (name) => {
  it('reads as it is written down, within its parts, without a fault', async () => {
    const path = join(FOLDER, name);
    const source = readFileSync(path, 'utf8');
    const played = await play(source, onTestFinished);
    if (process.env['UPDATE']) writeFileSync(path, played.lines.join('\n'));
    expect(played.faults).toEqual([]);
    expect(played.lines.join('\n')).toBe(source);
    for (const { text, parts, reminder } of played.out)
      expect(parts, text).toBeLessThanOrEqual(reminder ? 1 : 2);
  });
});
