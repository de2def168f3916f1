/** Puts a plan's conflict to the grower: what cannot be, why, and the ways out as numbers. */
import { type Remedy, stepFor } from '../agronomy/plot-plan.ts';
import { changeFor } from '../agronomy/with-remedy.ts';
import type { Message } from '../say/message.ts';
import { leave, numbered } from './numbered.ts';
import { activityName, dueWords, inside, officer, which } from './phrases.ts';
import type { Planned } from './planned.ts';
import type { Outcome } from './state.ts';
import type { Part, Sentence } from './turn.ts';
import type { World } from './world.ts';

interface Way {
  readonly what: Message;
  readonly leads: Outcome;
}

/** The question about the first plot that has one; null when every plan keeps its rules, or was asked about before. */
export function askWaysOut(
  world: World,
  plans: readonly Planned[],
  askedBefore: (planned: Planned) => boolean = () => false,
): Part | null {
  for (const planned of plans) {
    if (askedBefore(planned)) continue;
    const part = seedlings(world, planned);
    if (part) return part;
  }
  return null;
}

/** The age in days that growing seedlings will have, when the plan asks what to do about it; null when it does not. */
export function oldSeedlings({
  season,
  plan,
}: Planned): { readonly ageDays: number; readonly plantFrom: number } | null {
  const planting = stepFor(plan, 'transplant');
  const sown = stepFor(plan, 'sow-nursery')?.on ?? null;
  const asks =
    season.oldSeedlingsAccepted !== true && plan.remedies.some(({ kind }) => kind === 'sow-afresh');
  if (!asks || planting?.due == null || planting.earliest === null || sown === null) return null;
  return { ageDays: planting.due - sown, plantFrom: planting.earliest };
}

function seedlings(world: World, planned: Planned): Part | null {
  const { plot, plan } = planned;
  const old = oldSeedlings(planned);
  if (!old) return null;
  const ways = plan.remedies.flatMap((remedy) => wayOf(world, planned, remedy));
  const values = { which: which([plot]), day: { day: old.plantFrom }, age: old.ageDays };
  const options = ways.length > 1 ? ways : [...ways, leave('choice.not-now')];
  return {
    ...numbered([{ key: 'conflict.old-seedlings', values }], options),
    topic: { plotId: plot.id, activity: 'transplant' },
    asks: plot.seasonId,
  };
}

/** One sentence about old seedlings that were asked about before and not answered. */
export function stillOld(plans: readonly Planned[]): Sentence[] {
  for (const planned of plans) {
    const old = oldSeedlings(planned);
    if (old) return [{ key: 'conflict.still', values: { age: old.ageDays, plot: planned.plot.number } }];
  }
  return [];
}

/** A way out that the grower can pick; nothing for one that is only told. */
function wayOf(world: World, { plot, season }: Planned, remedy: Remedy): Way[] {
  const change = changeFor(season, remedy, world);
  const what = choiceFor(remedy);
  if (!change || !what) return [];
  return [{ what, leads: { do: 'change-season', seasonId: plot.seasonId, change } }];
}

/** "Sow a fresh nursery Fri 19 Mar, plant Thu 8 Apr": what the grower does, when, and what it costs. */
function choiceFor({ kind, on, plantOn, extraSeedlings: extra = 0, afterRain }: Remedy): Message | null {
  const [day, planting] = [{ day: on }, { day: plantOn ?? on }];
  switch (kind) {
    case 'sow-afresh':
      return afterRain
        ? { key: 'choice.sow-afresh-rain' }
        : { key: 'choice.sow-afresh', values: { day, planting } };
    case 'plant-older':
      return extra > 0
        ? { key: 'choice.plant-older', values: { day, extra } }
        : { key: 'choice.plant-older-plain', values: { day } };
    case 'change-way':
      return { key: 'choice.unploughed', values: { day, planting } };
    case 'soak-again':
    case 'ask-water':
    case 'do-again':
    case 'more-teams':
    case 'tell-group':
    case 'go-on':
      return null;
  }
}

/** Conflicts with a single way out are told, not asked: the first plot's that has one. */
export function tellWaysOut(world: World, plans: readonly Planned[]): Sentence[] {
  return plans.flatMap((planned) => statement(world, planned)?.say ?? []).slice(0, 1);
}

function statement(world: World, planned: Planned): Part | null {
  const { plot, plan } = planned;
  const soak = plan.remedies.find(({ kind }) => kind === 'soak-again');
  if (soak)
    return said('conflict.soaked-seed', {
      which: which([plot]),
      due: dueWords('pregerminate', soak.on, world.today),
    });
  const water = plan.remedies.find(({ kind }) => kind === 'ask-water');
  if (water)
    return said('conflict.no-water', {
      which: which([plot]),
      due: dueWords('soak', water.on, world.today),
      ...officer(world),
    });
  const told = plan.remedies.filter(({ kind }) => !(plan.unevenness && kind === 'do-again'));
  const work = told.map((remedy) => workRemedy(planned, remedy)).find((part) => part !== null);
  if (work) return work;
  const nameless = plan.conflicts.length > 0 && plan.remedies.length === 0;
  return nameless ? said('conflict.other', { inside: inside([plot]), ...officer(world) }) : null;
}

/** The same work once more, or more hands at it: told with its day and what it saves. */
function workRemedy({ plot, plan }: Planned, { kind, rule, activity, on, teams }: Remedy): Part | null {
  if (activity === undefined) return null;
  if (kind === 'more-teams')
    return said('conflict.more-teams', { count: teams ?? 1, do: activityName(activity) });
  const breach = plan.breaches.find((one) => one.rule === rule);
  if (kind !== 'do-again' || !breach) return null;
  return said('conflict.do-again', {
    which: which([plot]),
    do: activityName(activity),
    due: dueWords(activity, on, plan.today),
    cost: { key: `cost.${breach.cost.name}` },
  });
}

const said = (key: string, values: NonNullable<Message['values']>): Part => ({ say: [{ key, values }] });
