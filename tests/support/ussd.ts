/** Keys numbered screens over HTTP as a carrier would. */
import { DEFAULT_RULEBOOK } from '../../src/agronomy/rules/default-rulebook.ts';
import type { LineParts } from '../../src/sweeps/open-line.ts';
import { readVoices } from '../../src/sweeps/read-voices.ts';
import { realTalk } from '../../src/sweeps/real-talk.ts';
import { createApp } from '../../src/web/create-app.ts';
import { listen } from '../../src/web/listen.ts';
import { COMMON_SHAPE, type UssdShape } from '../../src/web/ussd/shape.ts';
import { type TestLine, testLine } from './test-line.ts';

const VOICES = readVoices();

/** A line of the test valley with the real conversation, and the address of its screens. */
export async function screensOn(
  afterwards: (undo: () => Promise<void> | void) => void,
  shape: Partial<UssdShape> = {},
  parts: Partial<LineParts> = {},
): Promise<{ readonly line: TestLine; readonly url: string }> {
  const common = { talk: realTalk, voices: VOICES, rulebook: DEFAULT_RULEBOOK };
  const line = await testLine(afterwards, { ...common, ...parts });
  const listening = await listen(
    createApp(line, { signing: null, ussd: { ...COMMON_SHAPE, ...shape } }),
    0,
    '127.0.0.1',
  );
  afterwards(() => listening.stop());
  return { line, url: `http://127.0.0.1:${listening.port}/ussd` };
}

/** Posts a form and returns the body. */
export async function hit(url: string, form: Record<string, string>): Promise<string> {
  return (await fetch(url, { method: 'POST', body: new URLSearchParams(form) })).text();
}

/** One session in the common form: each call sends all inputs so far. */
export function dial(url: string, phoneNumber: string, sessionId = 'S1') {
  let inputs: readonly string[] = [];
  const common = { sessionId, phoneNumber, serviceCode: '*123#', networkCode: '99999' };
  return {
    open: (text = '') => {
      inputs = text === '' ? [] : [text];
      return hit(url, { ...common, text });
    },
    key: (key: string) => {
      inputs = [...inputs, key];
      return hit(url, { ...common, text: inputs.join('*') });
    },
    again: () => hit(url, { ...common, text: inputs.join('*') }),
    raw: (text: string) => hit(url, { ...common, text }),
  };
}

/** Reports as kept: "clear 2027-03-09". */
export async function reportsOn({ db }: TestLine): Promise<readonly string[]> {
  const rows = await db.selectFrom('reports').select(['activity', 'done_on']).orderBy('said_ms').execute();
  return rows.map(({ activity, done_on }) => `${activity} ${done_on}`);
}
