/** Canals, fertiliser and weather of a scheme's file as a conversation sees them. */
import { expect, onTestFinished, test } from 'vitest';
import { loadSchemes } from '../../src/store/load-schemes.ts';
import { plantScheme } from '../../src/store/plant-scheme.ts';
import { seedOfFile } from '../../src/sweeps/seed-of-file.ts';
import { DATABASES } from '../support/databases.ts';
import { NOON_MS } from '../support/test-line.ts';
import { VALLEY } from '../support/valley-scheme.ts';

const OWN = `${VALLEY.replace('name: Upper,', 'name: Upper, canal: { litresPerSecond: 6 },')}nutrients:
  recommendation: { n: 90, p2o5: 0, k2o: 0, source: "Valley office: 2025" }
  products: [{ name: urea, n: 46, bagKg: 50 }]
climate: { rainMm: [${Array<number>(12).fill(80).join(', ')}], source: a station }
`;

test.each(DATABASES)(
  '$name: what the file says, and nothing once the file no longer says it',
  async ({ open }) => {
    const db = await open(onTestFinished);
    const world = async (text: string) => {
      await plantScheme(db, await seedOfFile(db, text, NOON_MS));
      return (await loadSchemes(db))[0]?.world;
    };
    const own = await world(OWN);
    expect(own?.blocks[0]?.canal).toEqual({ litresPerSecond: 6 });
    expect(own?.nutrients).toEqual({
      recommendation: { n: 90, p2o5: 0, k2o: 0, source: 'Valley office: 2025' },
      products: [{ name: 'urea', n: 46, p2o5: 0, k2o: 0, bagKg: 50 }],
    });
    expect(own?.climate).toMatchObject({ source: 'a station' });
    const bare = await world(VALLEY);
    expect(bare?.blocks[0]).not.toHaveProperty('canal');
    for (const key of ['nutrients', 'climate']) expect(bare).not.toHaveProperty(key);
  },
);
