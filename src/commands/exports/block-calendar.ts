/** A block's calendar: what its plots do on each day, when its water is there, and whom water or a team comes to. */
import type { Activity, Span } from '../../agronomy/season.ts';
import { type Day, isoDay } from '../../plan/day.ts';
import type { Moment } from '../../scheme/group/appointment.ts';
import type { SchemeEntry } from '../../store/load-schemes.ts';
import { instantOf } from '../../store/local-time.ts';
import type { CalendarEvent } from './icalendar.ts';
import type { PlannedPlot } from './planned-plots.ts';
import type { PlotVisit } from './visits.ts';

const MINUTES_IN_HOUR = 60;
const MINUTES_IN_DAY = 24 * MINUTES_IN_HOUR;

/** The events of the block; `plots` and `visits` may hold those of other blocks too. */
export function blockEvents(
  block: SchemeEntry['world']['blocks'][number],
  plots: readonly PlannedPlot[],
  visits: readonly PlotVisit[],
  timeZone: string,
): readonly CalendarEvent[] {
  const own = plots.filter(({ blockId }) => blockId === block.id);
  const named = new Map(own.map(({ id, name }) => [id, name]));
  return [
    ...spanEvents(`${block.id}/water`, block.water, {
      whole: `${block.name}: water in the canal`,
      from: `${block.name}: water in the canal from today`,
      to: `${block.name}: last day of water in the canal`,
    }),
    ...spanEvents(`${block.id}/planting`, block.target, {
      whole: `${block.name}: planting window`,
      from: `${block.name}: planting window opens`,
      to: `${block.name}: planting window closes`,
    }),
    ...workEvents(block.id, own),
    ...visits.flatMap(({ plotId, kind, team, visit }) => {
      const name = named.get(plotId);
      if (name === undefined) return [];
      const time = { fromMs: msOf(visit.start, timeZone), toMs: msOf(visit.end, timeZone) };
      const what = kind === 'water' ? 'Water' : (team ?? 'Team');
      return [{ uid: uidOf(`${plotId}/${kind}`), summary: `${what}: ${name}`, time }];
    }),
  ];
}

const uidOf = (name: string) => `${name}@bundline`;

/** Where one end of a span is not known, the other is a day of its own. */
function spanEvents(
  name: string,
  { from, to }: Span,
  says: { readonly whole: string; readonly from: string; readonly to: string },
): readonly CalendarEvent[] {
  const [first, last] = [from ?? to, to ?? from];
  if (first === null || last === null) return [];
  const summary = from === null ? says.to : to === null ? says.from : says.whole;
  return [{ uid: uidOf(name), summary, time: { from: first, to: last } }];
}

/** One event for each activity and day, with the plots that are due. */
function workEvents(blockId: string, plots: readonly PlannedPlot[]): readonly CalendarEvent[] {
  const events = new Map<string, { activity: Activity; day: Day; names: Set<string> }>();
  for (const { name, plan } of plots)
    for (const { activity, due } of plan.steps) {
      if (due === null) continue;
      const key = `${activity}/${isoDay(due)}`;
      const event = events.get(key) ?? { activity, day: due, names: new Set() };
      event.names.add(name);
      events.set(key, event);
    }
  return [...events]
    .sort(([a, { day: d }], [b, { day: e }]) => d - e || (a < b ? -1 : 1))
    .map(([key, { activity, day, names }]) => ({
      uid: uidOf(`${blockId}/${key}`),
      summary: `${titleOf(activity)}: ${[...names].join(', ')}`,
      time: { from: day, to: day },
    }));
}

/** `titleOf('sow-nursery')` is "Sow nursery". */
const titleOf = (activity: Activity) =>
  `${activity[0]?.toUpperCase()}${activity.slice(1).replaceAll('-', ' ')}`;

/** An hour of 24 is the first of the next day. */
function msOf({ day, hour }: Moment, timeZone: string): number {
  const minutes = Math.round(hour * MINUTES_IN_HOUR);
  return instantOf(day + Math.floor(minutes / MINUTES_IN_DAY), minutes % MINUTES_IN_DAY, timeZone);
}
