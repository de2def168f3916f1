/** Adds a grower who joined by text, with plots, seasons and the consent as texted. */
import { freeNumber } from '../scheme/free-number.ts';
import type { Joiner } from '../talk/effect.ts';
import { noteConsent } from './consents.ts';
import type { MakeId } from './ids.ts';
import { openPlot } from './open-plot.ts';
import { plotsOfPhone } from './plots.ts';
import type { Executor } from './ready-query.ts';
import type { Bringer } from './reports.ts';

/** Adds the person to the scheme and the phone; a plot number that the phone has already gets the next free one. */
export async function joinGrower(
  db: Executor,
  schemeId: string,
  joiner: Joiner,
  by: Bringer,
  makeId: MakeId,
): Promise<void> {
  const person = { id: makeId(), scheme_id: schemeId, name: joiner.name, lang: joiner.lang };
  await db
    .insertInto('people')
    .values({ ...person, role: 'grower', filed: null, forgotten: 0, blocks: null })
    .execute();
  await db.insertInto('phone_people').values({ phone: by.phone, person_id: person.id, place: 0 }).execute();
  const taken = new Set((await plotsOfPhone(db, by.phone)).map((plot) => plot.number));
  for (const plot of joiner.plots) {
    const number = freeNumber(plot.number, taken);
    taken.add(number);
    await openPlot(db, schemeId, person.id, { ...plot, number, label: null, place: null }, makeId);
  }
  await noteConsent(db, {
    id: makeId(),
    phone: by.phone,
    person_id: person.id,
    kind: 'joined',
    words: joiner.consent,
    lang: joiner.lang,
    said_ms: by.nowMs,
  });
}
