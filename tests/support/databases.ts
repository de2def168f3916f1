/** The databases that every store test runs on. */
import { join } from 'node:path';
import { migrate } from '../../src/store/migrate.ts';
import { type Db, openDatabase } from '../../src/store/open.ts';
import { newFolder } from './test-line.ts';

export interface TestDatabase {
  readonly name: string;
  /** Opens an empty, migrated database that the hook closes and removes. */
  readonly open: (afterwards: (undo: () => Promise<void> | void) => void) => Promise<Db>;
}

export const DATABASES: readonly TestDatabase[] = [
  {
    name: 'sqlite',
    open: async (afterwards) => {
      const folder = newFolder(afterwards);
      const db = openDatabase(join(folder, 'test.db'));
      afterwards(() => db.destroy());
      await migrate(db);
      return db;
    },
  },
];
