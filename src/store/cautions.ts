/** Which cautions a phone has had, so that each is given once. */
import { type Executor, readyQuery } from './ready-query.ts';

const selectCautions = readyQuery((db, at: { phone: string }) =>
  db.selectFrom('cautions').select('activity').where('phone', '=', at.phone).orderBy('activity'),
);

/** The activities whose caution this phone has had. */
export async function cautionsOf(db: Executor, phone: string): Promise<readonly string[]> {
  return (await selectCautions(db, { phone })).map((row) => row.activity);
}

/** Notes that the caution of this activity was given; noting it twice changes nothing. */
export async function noteCaution(
  db: Executor,
  phone: string,
  activity: string,
  nowMs: number,
): Promise<void> {
  await db
    .insertInto('cautions')
    .values({ phone, activity, given_ms: nowMs })
    .onConflict((on) => on.columns(['phone', 'activity']).doNothing())
    .execute();
}
