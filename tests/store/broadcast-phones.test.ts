import { expect, onTestFinished, test } from 'vitest';
import { isFewPlots, phonesAfter } from '../../src/store/broadcast-phones.ts';
import type { Db } from '../../src/store/open.ts';
import { queueTexts } from '../../src/store/outbox.ts';
import { plantScheme } from '../../src/store/plant-scheme.ts';
import { seedOfFile } from '../../src/sweeps/seed-of-file.ts';
import { DATABASES } from '../support/databases.ts';
import { MANY_BLOCK, manyPhone, plantMany } from '../support/many-growers.ts';
import { NOON_MS } from '../support/test-line.ts';
import { VALLEY } from '../support/valley-scheme.ts';

const PEOPLE = 300;
const TO = { blockIds: [MANY_BLOCK], keyPrefix: 'broadcast:b:' };

/** The same walk piece by piece until nothing is left. */
async function walk(db: Db, most: number, isFew: boolean) {
  const phones: { phone: string; lang: string }[] = [];
  for (let after: string | null = ''; after !== null; ) {
    const piece = await phonesAfter(db, TO, after, most, isFew);
    expect(piece.phones.length).toBeLessThanOrEqual(most);
    phones.push(...piece.phones);
    after = piece.nextAfter;
  }
  return phones;
}

/** Links at random but the same every time: people share phones, have several, and some phones are stopped. */
async function tangle(db: Db) {
  let seed = 7;
  const below = (n: number) => {
    seed = (seed * 48_271) % 2_147_483_647;
    return seed % n;
  };
  await db.updateTable('phones').set({ stopped: 1 }).where('number', 'like', '%3').execute();
  for (let i = 0; i < PEOPLE; i++) {
    const [person_id, phone] = [`m${String(below(PEOPLE)).padStart(7, '0')}`, manyPhone(below(PEOPLE))];
    const link = { person_id, phone, place: below(3) };
    await db
      .insertInto('phone_people')
      .values(link)
      .onConflict((on) => on.doNothing())
      .execute();
    await db
      .updateTable('people')
      .set({ lang: `l${below(3)}` })
      .where('id', '=', person_id)
      .execute();
  }
}

/** What must come out, thought through person by person. */
async function expected(db: Db) {
  const links = await db
    .selectFrom('phone_people')
    .innerJoin('phones', 'phones.number', 'phone_people.phone')
    .innerJoin('people', 'people.id', 'phone_people.person_id')
    .select(['phone', 'person_id', 'phone_people.place', 'stopped', 'people.lang'])
    .where('person_id', 'like', 'm%')
    .execute();
  const byPhone = new Map<string, string>();
  for (const person of [...new Set(links.map((link) => link.person_id))].sort()) {
    const own = links.filter((link) => link.person_id === person && link.stopped === 0);
    const [first] = own.toSorted((a, b) => a.place - b.place || (a.phone < b.phone ? -1 : 1));
    if (first && !byPhone.has(first.phone)) byPhone.set(first.phone, first.lang);
  }
  return [...byPhone].map(([phone, lang]) => ({ phone, lang })).sort((a, b) => (a.phone < b.phone ? -1 : 1));
}

for (const { name, open } of DATABASES) {
  const growers = async (count: number) => {
    const db = await open(onTestFinished);
    await plantScheme(db, await seedOfFile(db, VALLEY, NOON_MS));
    await plantMany(db, count);
    return db;
  };

  test(`${name}: in pieces of any size, from the plots or from the phones: every first phone once`, async () => {
    const db = await growers(PEOPLE);
    await tangle(db);
    const all = await expected(db);
    expect(all.length).toBeGreaterThan(PEOPLE / 2);
    expect(all.length).toBeLessThan(PEOPLE);
    for (const most of [1, 7, 1000])
      for (const isFew of [true, false]) expect(await walk(db, most, isFew)).toEqual(all);
  });

  test(`${name}: few growers among many phones are found, however far apart`, async () => {
    const db = await growers(10_000);
    const far = ['m0000000', 'm0003999', 'm0004000', 'm0007999', 'm0009999'];
    await db
      .updateTable('seasons')
      .set({ open: 0 })
      .where('id', 'like', 'm%')
      .where('id', 'not in', far)
      .execute();
    const found = (await walk(db, 500, false)).map(({ phone }) => phone);
    expect(found).toEqual([0, 3999, 4000, 7999, 9999].map(manyPhone));
    expect(await isFewPlots(db, [MANY_BLOCK])).toBe(false);
    expect(await isFewPlots(db, ['test-valley/upper'])).toBe(true);
  });

  test(`${name}: a phone stopped after the text came to it is not followed by the next one`, async () => {
    const db = await growers(2);
    const second = manyPhone(9);
    await db.insertInto('phones').values({ number: second, turns: 0, stopped: 0 }).execute();
    await db.insertInto('phone_people').values({ phone: second, person_id: 'm0000000', place: 1 }).execute();
    await db.updateTable('phones').set({ stopped: 1 }).where('number', '=', manyPhone(0)).execute();
    expect((await walk(db, 500, true)).map(({ phone }) => phone)).toEqual([manyPhone(1), second]);
    const text = { id: 'x', key: `broadcast:b:${manyPhone(0)}`, phone: manyPhone(0), text: 'words' };
    await queueTexts(db, [{ ...text, notBeforeMs: 0, expiresMs: 1 }], 0, null);
    expect((await walk(db, 500, true)).map(({ phone }) => phone)).toEqual([manyPhone(1)]);
  });
}
