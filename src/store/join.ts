/** Adds a grower who joined by text, with plots, seasons and the consent as texted. */
import type { Joiner } from '../talk/effect.ts';
import { noteConsent } from './consents.ts';
import type { MakeId } from './ids.ts';
import { placeAtEnd, plotsOfPhone } from './plots.ts';
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
    await addPlot(db, schemeId, person.id, { ...plot, number }, makeId);
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

function freeNumber(wanted: string, taken: ReadonlySet<string>): string {
  if (!taken.has(wanted)) return wanted;
  let number = 1;
  while (taken.has(String(number))) number += 1;
  return String(number);
}

async function addPlot(
  db: Executor,
  schemeId: string,
  ownerId: string,
  plot: Joiner['plots'][number],
  makeId: MakeId,
): Promise<void> {
  const id = makeId();
  const { number, blockId, areaHa } = plot;
  await db
    .insertInto('plots')
    .values({
      id,
      scheme_id: schemeId,
      number,
      label: null,
      owner_id: ownerId,
      block_id: blockId,
      area_ha: areaHa,
      place: await placeAtEnd(db, blockId),
    })
    .execute();
  const season = { id: makeId(), plot_id: id, open: 1 as const, way: JSON.stringify(plot.way) };
  const unsaid = { choices: '{}', teams: null, basal_advised: null, filed: null };
  await db
    .insertInto('seasons')
    .values({ ...season, variety_days: plot.varietyDays, ...unsaid })
    .execute();
}
