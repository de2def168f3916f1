/** Whom a broadcast of words goes to: one text for each phone, found piece by piece in the order of phones. */
import { type Executor, readyQuery } from './ready-query.ts';

/** Links of phones and people that are looked at for one piece, however few of them are in the blocks. */
const LINKS_TOGETHER = 4000;

/** Plots up to which a broadcast is found from its blocks, and not among all the phones there are. */
const FEW_PLOTS = 4000;

/** What is asked for: who grows in these blocks and has not had a text whose key begins like this. */
export interface WordsTo {
  readonly blockIds: readonly string[];
  readonly keyPrefix: string;
}

/** Phones of one piece, in order. */
export interface PhonePiece {
  readonly phones: readonly {
    readonly phone: string;
    /** Of the first by id of its people whom the words are for. */
    readonly lang: string;
  }[];
  /** Where the next piece begins; null when this was the last. */
  readonly nextAfter: string | null;
}

const selectReach = readyQuery((db, at: { after: string }) =>
  db
    .selectFrom('phone_people')
    .select('phone')
    .where('phone', '>', at.after)
    .orderBy('phone')
    .limit(1)
    .offset(LINKS_TOGETHER - 1),
);

/** Whether the blocks are small enough to start from their plots. */
export async function isFewPlots(db: Executor, blockIds: readonly string[]): Promise<boolean> {
  if (blockIds.length === 0) return true;
  const some = db.selectFrom('plots').select('id').where('block_id', 'in', blockIds);
  return (await some.limit(FEW_PLOTS + 1).execute()).length <= FEW_PLOTS;
}

/**
 * The next phones after `after`, at most `most`: growers who are not forgotten, with an open season in the blocks, each on
 * his or her first phone that takes texts. Nobody who has had the text on a phone that was stopped since gets it again.
 */
export async function phonesAfter(
  db: Executor,
  to: WordsTo,
  after: string,
  most: number,
  isFew: boolean,
): Promise<PhonePiece> {
  if (to.blockIds.length === 0) return { phones: [], nextAfter: null };
  const reach = isFew ? null : ((await selectReach(db, { after }))[0]?.phone ?? null);
  let query = growersOn(db, to)
    .where('link.phone', '>', after)
    .orderBy('link.phone')
    .orderBy('link.person_id')
    .limit(most);
  if (isFew) query = query.where('link.phone', 'in', phonesOf(db, to.blockIds));
  if (reach !== null) query = query.where('link.phone', '<=', reach);
  const rows = await query.execute();
  const phones = rows.filter(({ phone }, i) => phone !== rows[i - 1]?.phone);
  const last = rows.length < most ? reach : (phones.at(-1)?.phone ?? null);
  return { phones, nextAfter: last };
}

/** Growers' links to their first phones, with the language of each. */
function growersOn(db: Executor, { blockIds, keyPrefix }: WordsTo) {
  return db
    .selectFrom('phone_people as link')
    .innerJoin('phones', 'phones.number', 'link.phone')
    .innerJoin('people', 'people.id', 'link.person_id')
    .select(['link.phone', 'people.lang'])
    .where('phones.stopped', '=', 0)
    .where('people.role', '=', 'grower')
    .where('people.forgotten', '=', 0)
    .where((eb) =>
      eb.exists(
        eb
          .selectFrom('plots')
          .innerJoin('seasons', 'seasons.plot_id', 'plots.id')
          .select('plots.id')
          .whereRef('plots.owner_id', '=', 'people.id')
          .where('plots.block_id', 'in', blockIds)
          .where('seasons.open', '=', 1),
      ),
    )
    .where((eb) => {
      // An earlier phone of the same person that takes texts, or has had this one.
      const better = eb
        .selectFrom('phone_people as other')
        .innerJoin('phones as known', 'known.number', 'other.phone')
        .leftJoin('outbox', (join) =>
          join
            .on((on) => on('outbox.key', '=', on(on.val(keyPrefix), '||', on.ref('other.phone'))))
            .on('outbox.state', '!=', 'failed'),
        )
        .select('other.phone')
        .whereRef('other.person_id', '=', 'link.person_id')
        .where((or) =>
          or.or([
            or('other.place', '<', or.ref('link.place')),
            or.and([
              or('other.place', '=', or.ref('link.place')),
              or('other.phone', '<', or.ref('link.phone')),
            ]),
          ]),
        )
        .where((or) => or.or([or('known.stopped', '=', 0), or('outbox.id', 'is not', null)]));
      return eb.not(eb.exists(better));
    });
}

function phonesOf(db: Executor, blockIds: readonly string[]) {
  return db
    .selectFrom('plots')
    .innerJoin('phone_people', 'phone_people.person_id', 'plots.owner_id')
    .select('phone_people.phone')
    .where('plots.block_id', 'in', blockIds);
}
