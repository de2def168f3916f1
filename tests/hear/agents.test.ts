/** What agents text in each language, as it was heard right when it was written down; and what must stay a grower's. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Heard } from '../../src/hear/reading.ts';
import { readVoices } from '../../src/sweeps/read-voices.ts';

const FOLDER = join(import.meta.dirname, 'agents');
const voices = new Map(readVoices().map((voice) => [voice.lang, voice]));
const TODAY = 20887;
const BLOCKS = ['Upper', 'Middle', 'Lower East'];

/** "flood|Upper|2027-05-04|": command, block, day, plots. */
function labelOf({ readings }: Heard): string {
  const [only] = readings;
  if (readings.length !== 1 || only?.kind !== 'agent') return 'no command';
  return [only.what, only.block ?? '', only.on ?? '', (only.plots ?? []).join(',')].join('|');
}

describe.each(readdirSync(FOLDER).map((file) => file.replace('.txt', '')))('agents in %s', (lang) => {
  const rows = readFileSync(join(FOLDER, `${lang}.txt`), 'utf8')
    .split('\n')
    .filter((row) => row !== '' && !row.startsWith('#'))
    .map((row) => row.split(' < ') as [string, string]);

  test('are many, and of every command', () => {
    const commands = new Set(rows.map(([label]) => label.split('|')[0]));
    expect(rows.length).toBeGreaterThan(30);
    expect(commands.size).toBeGreaterThan(9);
  });

  test.each(rows)('%s < %s', (label, text) => {
    expect(labelOf(voices.get(lang)!.hear(text, TODAY, undefined, BLOCKS))).toBe(label);
  });

  test('on a grower’s phone the words of agents alone are no commands', () => {
    const only = ['steps', 'digest', 'more', 'stopped', 'code', 'move', 'remove'];
    for (const [label, text] of rows)
      if (only.includes(label.split('|')[0] ?? ''))
        expect(labelOf(voices.get(lang)!.hear(text, TODAY)), text).toBe('no command');
  });
});

const english = (text: string) => voices.get('en')!.hear(text, TODAY, undefined, BLOCKS);

test.each([
  ['tell upper: bring more, we come in step', 'bring more, we come in step'],
  ['tell upper code 48213 is not for you', 'code 48213 is not for you'],
  ['TELL UPPER - Remove stones by 5 May', 'Remove stones by 5 May'],
])('words that are told may hold any words: %s', (text, words) => {
  expect(english(text).readings).toMatchObject([{ what: 'tell', block: 'Upper', text: words }]);
});

test.each([
  'ploughed plot 3 yesterday',
  'not ploughed plot 3',
  'no water in plot 2',
  'seed plot 3',
  'undo',
  '2',
])('an agent who grows is heard as a grower: %s', (text) =>
  expect(english(text)).toEqual(voices.get('en')!.hear(text, TODAY)),
);

test.each([
  ['add 07700900050 Maria, upper, 0.4 ha', 'add'],
  ['add Maria 07700 900050 upper 0.4', 'add'],
  ['move plot U-7 to lower', 'move'],
  ['give U-7 to +447700900012', 'move'],
  ['remove plot M-12', 'remove'],
])('%s', (text, what) => expect(english(text).readings).toMatchObject([{ kind: 'agent', what }]));
