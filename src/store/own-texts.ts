/** What the line last said to a phone: the answers to its texts, and texts that were sent. */
import { type Executor, readyQuery } from './ready-query.ts';

/** So many of each. */
const LAST = 5;

const selectAnswers = readyQuery((db, at: { phone: string }) =>
  db
    .selectFrom('texts_in')
    .select('answer')
    .where('phone', '=', at.phone)
    .where('answer', 'is not', null)
    .orderBy('turn', 'desc')
    .limit(LAST),
);

const selectSent = readyQuery((db, at: { phone: string }) =>
  db
    .selectFrom('outbox')
    .select('text')
    .where('phone', '=', at.phone)
    .where('handed_ms', 'is not', null)
    .orderBy('handed_ms', 'desc')
    .orderBy('id', 'desc')
    .limit(LAST),
);

/** The newest texts to the phone; none for a number that was never seen. */
export async function ownTexts(db: Executor, phone: string): Promise<readonly string[]> {
  const answers = await selectAnswers(db, { phone });
  const sent = await selectSent(db, { phone });
  return [...answers.flatMap(({ answer }) => answer ?? []), ...sent.map(({ text }) => text)];
}
