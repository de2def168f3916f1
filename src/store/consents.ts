/** Who agreed to be texted, and who asked not to be: the words, the language and the time. Rows are only added. */
import type { Executor } from './ready-query.ts';
import type { ConsentsTable } from './tables.ts';

/** Adds one consent, opt-out or opt-in. */
export async function noteConsent(db: Executor, consent: ConsentsTable): Promise<void> {
  await db.insertInto('consents').values(consent).execute();
}
