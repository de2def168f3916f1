/** What one person is told by a broadcast, and what its agent is told of it afterwards. */

import type { Message, Saying } from '../say/message.ts';
import type { Moment, Visit } from '../scheme/group/appointment.ts';
import type { BroadcastHead, Delivery, Recipient } from './broadcast.ts';
import { activityName } from './phrases.ts';

/** The text for one person: the agent's words, or the person's own plots with what is new of them. */
export function broadcastText(head: BroadcastHead, { plots }: Recipient): Saying {
  if (head.kind === 'words')
    return { sentences: [{ key: 'broadcast.words', values: { name: head.agentName, words: head.words } }] };
  const turns = head.kind === 'water' && plots.some(({ visit, before }) => visit !== null && before === null);
  return {
    sentences: [
      ...plots.map((plot) => plotSentence(head, plot)),
      ...(turns ? [{ key: 'broadcast.bunds', spare: true }] : []),
    ],
  };
}

const KEYS = {
  water: { first: 'broadcast.water-new', moved: 'broadcast.water-moved', off: 'broadcast.water-off' },
  team: { first: 'broadcast.team-new', moved: 'broadcast.team-moved', off: 'broadcast.team-off' },
} as const;

function plotSentence(
  head: Exclude<BroadcastHead, { kind: 'words' }>,
  { number, visit, before }: Recipient['plots'][number],
): Message {
  const which: Message = { key: 'plot.name', values: { count: 1, plots: number } };
  const team = head.kind === 'team' ? { team: head.teamName, activity: activityName(head.activity) } : {};
  const keys = KEYS[head.kind];
  if (visit === null) return { key: keys.off, values: { which, ...team } };
  const span = head.kind === 'team' ? daysOf(visit) : spanOf(visit);
  return { key: before === null ? keys.first : keys.moved, values: { which, span, ...team } };
}

/** "Tue 4 May, morning to Wed 5 May, midday"; one part of a day is said once. */
export function spanOf({ start, end }: Visit): Message {
  const [from, to] = [momentOf(start), momentOf(end)];
  return start.day === end.day && partOfDay(start.hour) === partOfDay(end.hour)
    ? from
    : { key: 'moment.span', values: { from, to } };
}

/** Days alone: "on Tue 4 May", "from Tue 4 May to Wed 5 May". */
function daysOf({ start, end }: Visit): Message {
  return start.day === end.day
    ? { key: 'day.on', values: { day: { day: start.day } } }
    : { key: 'moment.days', values: { from: { day: start.day }, to: { day: end.day } } };
}

function momentOf({ day, hour }: Moment): Message {
  return { key: 'moment.at', values: { day: { day }, part: { key: `moment.${partOfDay(hour)}` } } };
}

/** Beginnings of the parts of a day, in hours, the last first; before them it is not yet light. */
const PARTS = [
  ['night', 21],
  ['evening', 18],
  ['afternoon', 14],
  ['midday', 11],
  ['morning', 5],
] as const;

/** The part of the day in which an hour lies. `partOfDay(9)` is "morning". */
export function partOfDay(hour: number): (typeof PARTS)[number][0] | 'early' {
  return PARTS.find(([, from]) => hour >= from)?.[0] ?? 'early';
}

/** How many were reached; of those who were not, some plots by name (at most `named`), and why. */
export function deliveryText(delivery: Delivery, named: number): Saying {
  const { broadcast, phones, reached } = delivery;
  const what: Message = {
    key: `delivery.${broadcast.kind}`,
    values: {
      blocks: { list: broadcast.blockNames },
      ...(broadcast.kind === 'team' && { team: broadcast.teamName }),
    },
  };
  if (phones === 0) return { sentences: [{ key: 'delivery.nobody', values: { what } }] };
  if (reached === phones) return { sentences: [{ key: 'delivery.all', values: { what, count: phones } }] };
  return {
    sentences: [failedSentence(delivery, what, named), ...triedAgain(delivery), ...reasons(delivery)],
  };
}

function failedSentence(
  { phones, reached, triedAgain: again, failedPlots }: Delivery,
  what: Message,
  named: number,
) {
  const values = { what, reached, count: phones };
  const failed = phones - reached - again;
  if (failed === 0) return { key: 'delivery.reached', values };
  if (failedPlots.length === 0) return { key: 'delivery.some', values: { ...values, failed } };
  const more = failedPlots.length - named;
  const rest: readonly Message[] = more > 0 ? [{ key: 'delivery.more', values: { count: more } }] : [];
  const plots = { list: [...failedPlots.slice(0, named), ...rest] };
  return { key: 'delivery.failed', values: { ...values, failed, plots } };
}

function triedAgain({ triedAgain: count }: Delivery): readonly Message[] {
  return count === 0 ? [] : [{ key: 'delivery.again', values: { count } }];
}

/** Told where the phones themselves are the reason: the agent can do something about those. */
function reasons({ lost }: Delivery): readonly Message[] {
  if (lost.stopped + lost.gone === 0) return [];
  const list = (['stopped', 'gone', 'other'] as const)
    .filter((reason) => lost[reason] > 0)
    .map((reason): Message => ({ key: `delivery.why-${reason}`, values: { count: lost[reason] } }));
  return [{ key: 'delivery.why', values: { reasons: { list } } }];
}
