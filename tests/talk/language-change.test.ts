/** A change of language is confirmed in the language that was asked for, on the real line with the demo's languages. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { readVoices } from '../../src/sweeps/read-voices.ts';
import { realTalk } from '../../src/sweeps/real-talk.ts';
import { takeText } from '../../src/web/take-text.ts';
import { testLine } from '../support/test-line.ts';

const ASHA = '+447700900001';
const DEMO = resolve(import.meta.dirname, '../../scripts/demo/orrowe-valley.yaml');

async function asha(): Promise<(text: string) => Promise<string | null>> {
  const schemeText = readFileSync(DEMO, 'utf8');
  const line = await testLine(onTestFinished, { voices: readVoices(), talk: realTalk, schemeText });
  let count = 0;
  return (text) => takeText(line, { carrierId: `SM${count++}`, from: ASHA, text });
}

test.each([
  ['kiswahili', 'Sawa: Kiswahili kuanzia sasa.'],
  ['francais', 'Bien: en francais maintenant.'],
  ['বাংলা', 'ঠিক আছে: এখন থেকে বাংলা।'],
])('"%s"', async (asked, answer) => {
  const send = await asha();
  expect(await send(asked)).toBe(answer);
});

test('from one language to the next and back, each time in the new one', async () => {
  const send = await asha();
  expect(await send('kiswahili')).toContain('Kiswahili');
  expect(await send('nimelima shamba 2 jana')).toContain('Shamba 2');
  expect(await send('francais')).toContain('francais');
  expect(await send('labour fini 1')).toContain('Parcelle 1');
  expect(await send('english')).toBe('Good: English from now on.');
  expect(await send('next 3')).toContain('Plot 3');
});
