import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeAll, describe, expect, onTestFinished, test, vi } from 'vitest';
import { planCommand } from '../../src/commands/plan.ts';
import { buildServer } from '../support/real-server.ts';
import { runCli } from '../support/run-cli.ts';
import { newFolder } from '../support/test-line.ts';

const PLOT = {
  today: '2027-03-10',
  way: { water: 'irrigated', tillage: 'two-wheel', establishment: 'transplant', nursery: 'wet-bed' },
  areaHa: 0.4,
  varietyDays: 120,
  blockWater: { from: '2027-02-20', to: null },
  target: { from: '2027-03-25', to: '2027-04-05' },
  reports: [{ activity: 'plough', stage: 'finished', on: '2027-03-01' }],
};

interface Printed {
  readonly steps: readonly Readonly<Record<string, unknown>>[];
}

function run(args: readonly string[]) {
  const [out, err]: [string[], string[]] = [[], []];
  vi.spyOn(console, 'log').mockImplementation((line: unknown) => void out.push(String(line)));
  vi.spyOn(console, 'error').mockImplementation((line: unknown) => void err.push(String(line)));
  return { code: planCommand(args), out, err };
}

function fileOf(text: string): string {
  const path = join(newFolder(onTestFinished), 'plot.json');
  writeFileSync(path, text);
  return path;
}

beforeAll(buildServer, 180_000);
afterEach(() => vi.restoreAllMocks());

describe('a plot file', () => {
  test('gives its plan as one line of JSON', () => {
    const { code, out, err } = run([fileOf(JSON.stringify(PLOT))]);
    expect([code, err, out.length]).toEqual([0, [], 1]);
    const plan = JSON.parse(out[0] ?? '') as Printed;
    expect(Object.keys(plan)).toEqual(['steps', 'breaches', 'lapses', 'conflicts', 'remedies']);
    expect(plan.steps.find((step) => step['activity'] === 'plough')).toEqual({
      activity: 'plough',
      status: 'done',
      on: '2027-03-01',
    });
    const next = plan.steps.find((step) => step['status'] === 'next');
    expect(Object.keys(next ?? {})).toEqual(
      expect.arrayContaining(['activity', 'status', 'earliest', 'due', 'latest', 'because']),
    );
    expect(next?.['due']).toMatch(/^2027-03-\d\d$/);
  });

  test('the same file gives the same plan', () => {
    const path = fileOf(JSON.stringify(PLOT));
    expect(run([path]).out).toEqual(run([path]).out);
  });

  test('long work says when it is done by, short work does not', () => {
    const { out } = run([fileOf(JSON.stringify({ ...PLOT, areaHa: 1 }))]);
    const { steps } = JSON.parse(out[0] ?? '') as Printed;
    const step = (activity: string) => steps.find((one) => one['activity'] === activity) ?? {};
    expect(step('puddle')['doneBy']).toMatch(/^2027-/);
    expect(step('pregerminate')).not.toHaveProperty('doneBy');
  });

  test('a conflict comes with the ways out and their days', () => {
    const reports = [
      { activity: 'sow-nursery', on: '2027-02-25' },
      { activity: 'plough', on: '2027-03-18' },
    ];
    const { out } = run([fileOf(JSON.stringify({ ...PLOT, today: '2027-03-18', reports }))]);
    const { remedies } = JSON.parse(out[0] ?? '') as { remedies: unknown[] };
    expect(remedies).toContainEqual({
      kind: 'sow-afresh',
      rule: 'seedling-age',
      on: expect.stringMatching(/^2027-03-/),
      cost: 'seed and nursery work once more',
      plantOn: expect.stringMatching(/^2027-04-/),
    });
  });
});

describe('what cannot be read is refused with exit code 2 and nothing on stdout', () => {
  test.each([[[]], [['a.json', 'b.json']]])('the arguments %j', (args) => {
    expect(run(args)).toMatchObject({ code: 2, out: [], err: [expect.stringContaining('usage')] });
  });

  test('a missing file, with its name', () => {
    const { code, out, err } = run(['/nowhere/plot.json']);
    expect([code, out]).toEqual([2, []]);
    expect(err).toEqual([expect.stringContaining('/nowhere/plot.json')]);
  });

  test.each(['{', '', 'hello', '{"today": 2027-03-10}'])('broken JSON: %s', (text) => {
    const path = fileOf(text);
    const { code, out, err } = run([path]);
    expect([code, out, err.length]).toEqual([2, [], 1]);
    expect(err[0]).toContain(path);
  });

  test('mistakes, each on a line with the file and the place', () => {
    const path = fileOf(
      JSON.stringify({
        ...PLOT,
        today: '2027-04-31',
        way: { ...PLOT.way, tillage: 'plane' },
        areaHa: -1,
        colour: 'red',
        reports: [{ activity: 'sing', on: '2027-03-01' }],
      }),
    );
    const { code, out, err } = run([path]);
    expect([code, out]).toEqual([2, []]);
    expect(err.every((line) => line.startsWith(`${path}: `))).toBe(true);
    const places = err.map((line) => line.slice(path.length + 2).split(':')[0]);
    expect(new Set(places)).toEqual(
      new Set(['today', 'way.tillage', 'areaHa', 'reports.0.activity', 'file']),
    );
    expect(err.find((line) => line.includes('today'))).toContain('2027-04-31');
  });

  test.each(['[]', 'null', '3', '"plot"'])('JSON that is no plot: %s', (text) => {
    expect(run([fileOf(text)])).toMatchObject({ code: 2, out: [] });
  });
});

test('"-" reads the plot from stdin', async () => {
  const ended = await runCli(['plan', '-'], { input: JSON.stringify(PLOT) });
  expect(ended).toMatchObject({ code: 0, stderr: '' });
  expect(JSON.parse(ended.stdout)).toHaveProperty('steps');
  expect(await runCli(['plan', '-'], { input: '{' })).toMatchObject({ code: 2, stdout: '' });
}, 60_000);
