import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { commitTogether } from '../../src/store/commit-together.ts';
import { migrate } from '../../src/store/migrate.ts';
import { openDatabase } from '../../src/store/open.ts';
import type { Executor } from '../../src/store/ready-query.ts';
import { DATABASES } from '../support/databases.ts';
import { newFolder } from '../support/test-line.ts';

const add = (db: Executor, number: string) =>
  db.insertInto('phones').values({ number, turns: 0, stopped: 0 }).execute();

async function numbers(db: Executor) {
  return (await db.selectFrom('phones').select('number').orderBy('number').execute()).map(
    (row) => row.number,
  );
}

describe.each(DATABASES)('$name', ({ open }) => {
  test('a piece that throws loses its own writes only, and alone is told', async () => {
    const db = await open(onTestFinished);
    const together = commitTogether(db);
    const results = await Promise.allSettled(
      ['a', 'b', 'c', 'd'].map((number) =>
        together(async (trx) => {
          await add(trx, number);
          if (number === 'b') throw new Error('no b');
          return number;
        }),
      ),
    );
    expect(
      results.map((result) => (result.status === 'fulfilled' ? result.value : String(result.reason))),
    ).toEqual(['a', 'Error: no b', 'c', 'd']);
    expect(await numbers(db)).toEqual(['a', 'c', 'd']);
  });

  test('a piece whose statement the database refuses leaves the others whole', async () => {
    const db = await open(onTestFinished);
    const together = commitTogether(db);
    const results = await Promise.allSettled(
      ['a', 'a', 'b'].map((number) => together((trx) => add(trx, number))),
    );
    expect(results.map((result) => result.status)).toEqual(['fulfilled', 'rejected', 'fulfilled']);
    expect(await numbers(db)).toEqual(['a', 'b']);
  });

  test('when the commit fails every piece is told and nothing is kept', async () => {
    const db = await open(onTestFinished);
    const together = commitTogether(db);
    const results = await Promise.allSettled([
      together((trx) => add(trx, 'a')),
      // A piece that ends the transaction under the others stands for a commit that cannot be made.
      together(async (trx) => {
        await trx.executeQuery({
          sql: 'rollback',
          parameters: [],
          query: { kind: 'RawNode' },
          queryId: { queryId: 'x' },
        } as never);
      }),
      together((trx) => add(trx, 'b')),
    ]);
    expect(results.map((result) => result.status)).toEqual(['rejected', 'rejected', 'rejected']);
    expect(await numbers(db)).toEqual([]);
  });

  test('more pieces than go in one commit are all done, in order', async () => {
    const db = await open(onTestFinished);
    const together = commitTogether(db, 3);
    const order: number[] = [];
    await Promise.all(
      Array.from({ length: 20 }, (_, i) =>
        together(async (trx) => {
          await add(trx, String(i));
          order.push(i);
        }),
      ),
    );
    expect(order).toEqual(Array.from({ length: 20 }, (_, i) => i));
    expect(await numbers(db)).toHaveLength(20);
  });

  test('work is taken up again after an idle time', async () => {
    const db = await open(onTestFinished);
    const together = commitTogether(db);
    await together((trx) => add(trx, 'a'));
    await new Promise((resolve) => setImmediate(resolve));
    await together((trx) => add(trx, 'b'));
    expect(await numbers(db)).toEqual(['a', 'b']);
  });
});

test('no piece is answered before its commit: another connection sees what was answered', async () => {
  const path = join(newFolder(onTestFinished), 'two.db');
  const [db, other] = [openDatabase(path), openDatabase(path)];
  onTestFinished(async () => {
    await db.destroy();
    await other.destroy();
  });
  await migrate(db);
  const together = commitTogether(db);
  const seen = await Promise.all(
    Array.from({ length: 30 }, async (_, i) => {
      await together((trx) => add(trx, String(i)));
      return (await numbers(other)).includes(String(i));
    }),
  );
  expect(seen).toEqual(Array.from({ length: 30 }, () => true));
});
