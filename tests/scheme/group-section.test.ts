/** What a scheme's file says for the group: read as written, and every mistake with its place. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readSchemeFile } from '../../src/scheme/scheme-file.ts';

const DEMO = readFileSync(resolve(import.meta.dirname, '../../scripts/demo/orrowe-valley.yaml'), 'utf8');
const TODAY = 20887;

function read(change: (text: string) => string) {
  const changed = change(DEMO);
  if (changed === DEMO) throw new Error('the change changes nothing');
  return readSchemeFile(changed, TODAY);
}
const mistakes = (change: (text: string) => string) => {
  const reading = read(change);
  return reading.ok ? [] : reading.mistakes.map(({ place, what }) => `${place}: ${what}`);
};
const MIDDLE = 'canal: { litresPerSecond: 10, open: { from: "06:00", to: "18:00" } }';

test('canals have hours and rounds, days being counted from the first load', () => {
  const reading = read((text) =>
    text.replace(
      MIDDLE,
      'canal: { litresPerSecond: 10, open: { from: "05:30", to: "18:00" }, rotation: { start: "+4", every: 9, days: 3 } }',
    ),
  );
  const middle = reading.ok ? reading.scheme.blocks[1] : undefined;
  expect(middle?.canal).toEqual({
    litresPerSecond: 10,
    open: { fromHour: 5.5, toHour: 18 },
    rotation: { start: TODAY + 4, every: 9, days: 3 },
  });
});

test('price, teams and the day of the digest', () => {
  const reading = read((text) => text.replace('pricePerPart:', 'digestOn: 5\npricePerPart:'));
  expect(reading).toMatchObject({
    ok: true,
    scheme: {
      digestOn: 5,
      pricePerPart: { amount: 0.04, currency: 'GBP' },
      sharedTeams: [{ id: 'tractor', movingHours: 0.5 }, { id: 'oxen' }],
    },
  });
});

describe('mistakes', () => {
  test.each([
    [
      'open: { from: "06:00", to: "18:00" }',
      'open: { from: "18:00", to: "06:00" }',
      /blocks, 2, canal, open: the end comes before/,
    ],
    [
      'open: { from: "06:00", to: "18:00" }',
      'rotation: { start: "+1", every: 3, days: 4 }',
      /more days than there are in a round/,
    ],
    [
      'blocks: [lower], phones',
      'blocks: [lowest], phones',
      /people, 2, blocks, 1: no block has the id "lowest"/,
    ],
    [
      'id: asha, name: Asha, lang: en',
      'id: asha, name: Asha, lang: en, blocks: [upper]',
      /only an agent answers for blocks/,
    ],
    [
      'blocks: [upper], hoursPerHa',
      'blocks: [uper], hoursPerHa',
      /sharedTeams, 1, blocks, 1: no block has the id "uper"/,
    ],
    ['id: oxen, name: Oxen', 'id: tractor, name: Oxen', /sharedTeams, 2, id: "tractor" is there twice/],
    ['work: plough, blocks: [upper]', 'work: weed, blocks: [upper]', /sharedTeams, 1, work/],
    ['currency: GBP', 'currency: pounds', /three capital letters/],
    ['label: U-3,', 'label: U-02,', /plots, 3, label: "U-02" is there twice/],
  ])('%s -> %s', (from, to, what) => {
    const found = mistakes((text) => text.replace(from, to));
    expect(found.join('\n')).toMatch(what);
  });
});
