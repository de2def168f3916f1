import { join } from 'node:path';
import { beforeAll, describe, expect, onTestFinished, test } from 'vitest';
import { openDatabase } from '../../src/store/open.ts';
import { buildServer } from '../support/real-server.ts';
import { runCli } from '../support/run-cli.ts';
import { newFolder } from '../support/test-line.ts';

const ASHA = '+447700900001';
const STRANGER = '+447700900050';

beforeAll(buildServer, 180_000);

function newPhone() {
  const BUNDLINE_DB = join(newFolder(onTestFinished), 'line.db');
  const settings = { BUNDLINE_DB, BUNDLINE_CLOCK: '2027-03-10T08:00:00Z' };
  return {
    path: BUNDLINE_DB,
    text: (as: string, ...texts: readonly string[]) =>
      runCli(['phone', '--as', as], { settings, input: texts.map((text) => `${text}\n`).join('') }),
  };
}

describe('texts piped in', () => {
  test('are answered one a line, over the demo scheme, and kept', async () => {
    const { path, text } = newPhone();
    const ended = await text(ASHA, 'ploughed plot 3, 12 cm', 'stop', 'stop', 'start', 'plots');
    expect(ended).toMatchObject({ code: 0, stderr: '' });
    const answers = ended.stdout.trimEnd().split('\n');
    expect(answers).toHaveLength(5);
    expect(answers[0]).toContain('Plot 3 ploughed Wed 10 Mar.');
    expect(answers[2]).toBe('(no answer)');
    expect(answers[4]).toContain('ploughing was last, Wed 10 Mar');
    const db = openDatabase(path);
    onTestFinished(() => db.destroy());
    const reports = await db.selectFrom('reports').select(['activity', 'done_on', 'phone']).execute();
    expect(reports).toEqual([{ activity: 'plough', done_on: '2027-03-10', phone: ASHA }]);
  }, 60_000);

  test('find the next day’s phone as it was left: the same database, another process', async () => {
    const { text } = newPhone();
    await text(ASHA, 'ploughed plot 3');
    const { stdout } = await text(ASHA, 'undo');
    expect(stdout).toContain('Taken back: Plot 3 ploughed Wed 10 Mar.');
  }, 60_000);

  test('of a number that nobody has are told how to join', async () => {
    const { stdout } = await newPhone().text(STRANGER, 'hello');
    expect(stdout).toMatch(/Orrowe Valley.*JOIN/);
  }, 60_000);

  test('none at all end it at once', async () => {
    expect(await newPhone().text(ASHA)).toEqual({ code: 0, stdout: '', stderr: '' });
  }, 60_000);
});

describe('refused with exit code 2', () => {
  test.each([
    [['phone']],
    [['phone', '--as']],
    [['phone', '--as', '07700900001']],
    [['phone', '--as', ASHA, 'more']],
    [['phone', '--like', ASHA]],
  ])(
    '%j',
    async (args) => {
      const BUNDLINE_DB = join(newFolder(onTestFinished), 'line.db');
      const ended = await runCli(args, { settings: { BUNDLINE_DB }, input: 'next\n' });
      expect(ended).toMatchObject({ code: 2, stdout: '', stderr: expect.stringContaining('usage') });
    },
    60_000,
  );

  test('a bad setting, with its name', async () => {
    const ended = await runCli(['phone', '--as', ASHA], { settings: { BUNDLINE_CLOCK: 'noon' } });
    expect(ended).toMatchObject({ code: 2, stdout: '', stderr: expect.stringContaining('BUNDLINE_CLOCK') });
  }, 60_000);

  test('a command that is not there, with those that are', async () => {
    const ended = await runCli(['plouhg']);
    expect(ended).toMatchObject({ code: 2, stdout: '', stderr: expect.stringContaining('phone') });
  }, 60_000);
});
