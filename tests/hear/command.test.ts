import { Readable } from 'node:stream';
import { afterEach, expect, test, vi } from 'vitest';
import { hearCommand } from '../../src/commands/hear.ts';

const written = () => {
  const out: string[] = [];
  vi.spyOn(process.stdout, 'write').mockImplementation((text) => out.push(String(text)) > 0);
  vi.spyOn(console, 'error').mockImplementation((text: unknown) => void out.push(`error: ${String(text)}`));
  return out;
};

afterEach(() => vi.restoreAllMocks());

test('one text gives one line with readings and unclear only', async () => {
  const out = written();
  expect(await hearCommand(['--lang', 'en', '--today', '2027-03-10', 'ploughed', 'plot 3'])).toBe(0);
  expect(out).toHaveLength(1);
  expect(Object.keys(JSON.parse(out[0]!) as object)).toEqual(['readings', 'unclear']);
});

test('--lines answers every line in order, empty ones too', async () => {
  const out = written();
  vi.spyOn(process, 'stdin', 'get').mockReturnValue(
    Readable.from([Buffer.from('2\r\n\nye'), Buffer.from('s\n')]) as typeof process.stdin,
  );
  expect(await hearCommand(['--lines', '--today', '2027-03-10'])).toBe(0);
  expect(out.map((line) => (JSON.parse(line) as { readings: unknown[] }).readings.length)).toEqual([1, 0, 1]);
});

test.each([
  [['--lang', 'xx', 'hello'], 'xx'],
  [['--lang', '../en', 'hello'], 'language tag'],
  [['--today', '2027-04-31', 'hello'], '2027-04-31'],
  [['--colour', 'red', 'hello'], 'colour'],
  [[], 'No text'],
  [['--lines', 'hello'], 'stdin'],
])('%j is refused with a reason', async (args, reason) => {
  const out = written();
  expect(await hearCommand(args)).toBe(2);
  expect(out.join('\n')).toContain(reason);
});
