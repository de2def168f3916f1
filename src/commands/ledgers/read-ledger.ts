/** The ledger of one scheme over a span of its days, read day by day. */
import { type Day, isoDay } from '../../plan/day.ts';
import { type PhonePlace, phonePlaces, textsCame, textsTaken } from '../../store/ledger-rows.ts';
import type { SchemeEntry } from '../../store/load-schemes.ts';
import { instantOf } from '../../store/local-time.ts';
import type { Db } from '../../store/open.ts';
import { emptyLedger, kindOf, type Ledger } from './sum-ledger.ts';

/** What texts to people without plots stand under. */
export const NO_BLOCK = 'none';

/** Texts that came in. */
export interface CameIn {
  readonly texts: number;
  readonly parts: number;
  /** The carrier's own count, of those texts of which it told. */
  readonly carrierParts: number;
}

/** Sums what the carrier took for the scheme's phones; unknown numbers belong to the scheme that takes them in. */
export async function readLedger(
  db: Db,
  scheme: SchemeEntry,
  { takesStrangers, from, to }: { readonly takesStrangers: boolean; readonly from: Day; readonly to: Day },
): Promise<{ readonly ledger: Ledger; readonly cameIn: CameIn }> {
  const places = await phonePlaces(db);
  const own = ({ phone }: { readonly phone: string | null }): boolean => {
    const place = placeOf(places, phone);
    return place === null ? takesStrangers : place.schemeId === scheme.world.id;
  };
  const names = new Map(scheme.world.blocks.map(({ id, name }) => [id, name]));
  const ledger = emptyLedger();
  let cameIn: CameIn = { texts: 0, parts: 0, carrierParts: 0 };
  for (let day = from; day <= to; day++) {
    const [fromMs, toMs] = [instantOf(day, 0, scheme.timeZone), instantOf(day + 1, 0, scheme.timeZone)];
    const taken = (await textsTaken(db, { fromMs, toMs })).filter(own);
    ledger.add(
      taken.map(({ key, phone, ...text }) => {
        const blockId = placeOf(places, phone)?.blockId ?? null;
        const block = blockId === null ? NO_BLOCK : (names.get(blockId) ?? blockId);
        return { ...text, day: isoDay(day), block, kind: kindOf(key) };
      }),
    );
    for (const { parts, carrierParts } of (await textsCame(db, { fromMs, toMs })).filter(own))
      cameIn = {
        texts: cameIn.texts + 1,
        parts: cameIn.parts + parts,
        carrierParts: cameIn.carrierParts + (carrierParts ?? 0),
      };
  }
  return { ledger, cameIn };
}

const placeOf = (places: ReadonlyMap<string, PhonePlace>, phone: string | null): PhonePlace | null =>
  phone === null ? null : (places.get(phone) ?? null);
