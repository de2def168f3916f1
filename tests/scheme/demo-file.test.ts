import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readSchemeFile } from '../../src/scheme/scheme-file.ts';
import type { SchemeFile } from '../../src/scheme/scheme-shape.ts';
import { day } from '../support/seasons.ts';

const DEMO = readFileSync(new URL('../../scripts/demo/orrowe-valley.yaml', import.meta.url), 'utf8');
const LOADED = day('2027-03-01');

function demo(loadedOn = LOADED): SchemeFile {
  const read = readSchemeFile(DEMO, loadedOn);
  if (!read.ok) throw new Error(JSON.stringify(read.mistakes));
  return read.scheme;
}

describe('the demo scheme', () => {
  test('has three blocks, each with plots', () => {
    const { blocks, plots } = demo();
    expect(blocks.map(({ id }) => id)).toEqual(['upper', 'middle', 'lower']);
    for (const { id } of blocks)
      expect(plots.filter(({ block }) => block === id).length, id).toBeGreaterThan(4);
  });

  test('has 24 plots of 12 growers, and two agents without a plot', () => {
    const { people, plots } = demo();
    expect(plots).toHaveLength(24);
    expect(people.filter(({ role }) => role === 'grower')).toHaveLength(12);
    expect(people.filter(({ role }) => role === 'agent')).toHaveLength(2);
    expect(new Set(plots.map(({ owner }) => owner)).size).toBe(12);
  });

  test('uses only phone numbers that are kept for fiction', () => {
    const { people, officer } = demo();
    const phones = [officer.phone, ...people.flatMap((person) => person.phones)];
    expect(phones.filter((phone) => !/^\+447700900\d{3}$/.test(phone))).toEqual([]);
  });

  test('has two people on one phone, and one person on two', () => {
    const { people } = demo();
    const phones = people.flatMap((person) => person.phones);
    expect(new Set(phones).size).toBe(phones.length - 1);
    expect(people.filter((person) => person.phones.length === 2)).toHaveLength(1);
  });

  test('is ploughed in every way, so that each is tried', () => {
    const tillages = new Set(demo().plots.map(({ way }) => way.tillage));
    expect(tillages).toEqual(new Set(['two-wheel', 'animals', 'hoe']));
  });

  test('counts its days from the first loading, wherever that falls', () => {
    const [upper] = demo().blocks;
    expect(upper?.water).toEqual({ from: LOADED - 10, to: LOADED + 70 });
    const [later] = demo(LOADED + 400).blocks;
    expect(later?.water).toEqual({ from: LOADED + 390, to: LOADED + 470 });
  });

  test('can be planted in time in every block: the group’s dates come while there is water', () => {
    for (const { water, target, id } of demo().blocks) {
      expect((target.from ?? 0) - (water.from ?? 0), id).toBeGreaterThanOrEqual(21);
      expect(target.to ?? 0, id).toBeLessThan(water.to ?? 0);
    }
  });
});
