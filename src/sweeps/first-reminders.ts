/** Reminders of seasons that nobody has texted about yet: a new scheme's, or those of a grower who has just joined. */
import type { Trx } from '../store/commit-together.ts';
import { loadPhone, worldOf } from '../store/load-phone.ts';
import { replaceReminders } from '../store/reminders.ts';
import { notePlanned } from '../store/seasons.ts';
import type { Effect } from '../talk/effect.ts';
import type { Line } from './line.ts';
import { schemeOf, settingOf } from './phone-setting.ts';

/** The reminders of a phone's seasons as planned now. */
export interface PlannedPhone {
  readonly schemeId: string;
  readonly seasons: readonly Extract<Effect, { do: 'remind' }>[];
}

/** Plans every plot of the phone and writes down its reminders, replacing those that were not sent. */
export async function planPhone(trx: Trx, line: Line, phone: string): Promise<void> {
  await writePlanned(trx, await plannedPhone(trx, line, phone));
}

/** Plans every plot of the phone and writes nothing; throws what planning throws. */
export async function plannedPhone(trx: Trx, line: Line, phone: string): Promise<PlannedPhone> {
  const facts = await loadPhone(trx, phone);
  const scheme = schemeOf(line, facts);
  const setting = settingOf(line, scheme, line.clock.nowMs());
  const { effects } = line.talk.plan(worldOf(facts, setting));
  await notePlanned(
    trx,
    facts.plots.map(({ seasonId }) => seasonId),
    setting.today,
  );
  const seasons = effects.map((effect) => {
    if (effect.do !== 'remind') throw new Error(`planning asked for "${effect.do}"`);
    return effect;
  });
  return { schemeId: scheme.world.id, seasons };
}

/** Writes down what was planned, replacing the reminders that were not sent. */
export async function writePlanned(trx: Trx, { schemeId, seasons }: PlannedPhone): Promise<void> {
  for (const { seasonId, reminders } of seasons) await replaceReminders(trx, schemeId, seasonId, reminders);
}

/** Plans the phones of all growers who have a season without any reminder; returns how many phones. */
export async function planUnplanned(line: Line): Promise<number> {
  const phones = await line.db
    .selectFrom('seasons')
    .innerJoin('plots', 'plots.id', 'seasons.plot_id')
    .innerJoin('phone_people', 'phone_people.person_id', 'plots.owner_id')
    .leftJoin('reminders', 'reminders.season_id', 'seasons.id')
    .select('phone_people.phone')
    .distinct()
    .where('seasons.open', '=', 1)
    .where('reminders.season_id', 'is', null)
    .orderBy('phone_people.phone')
    .execute();
  for (const { phone } of phones) await line.together((trx) => planPhone(trx, line, phone));
  return phones.length;
}
