/** What a broadcast will come to: people, texts, parts and cost; and who has stopped texts. */
import type { Message } from '../../say/message.ts';
import type { Appointment } from '../../scheme/group/appointment.ts';
import type { Broadcast, Recipient } from '../broadcast.ts';
import { broadcastText } from '../broadcast-text.ts';
import type { Group, GroupPlot, Grower } from '../group.ts';
import type { Sentence } from '../turn.ts';
import type { World } from '../world.ts';
import { plotsOf } from './meant.ts';

/** Names of people who have stopped texts, told in a preview. */
const NAMED = 3;

/** "5 people, 5 texts, 6 parts, about 0.24 GBP." */
export function previewOf(world: World, group: Group, broadcast: Broadcast): Sentence[] {
  const people = recipients(group, broadcast);
  const reached = people.filter(({ grower }) => !grower.stopped);
  const texts = broadcast.kind === 'words' ? onePerPhone(reached) : reached;
  const parts = partsOf(group, broadcast, texts);
  const price = world.scheme.pricePerPart;
  const values = { count: reached.length, texts: texts.length, parts };
  const cost = price && (parts * price.amount).toFixed(2);
  return [
    price && cost !== undefined
      ? { key: 'preview.cost', values: { ...values, cost, currency: price.currency } }
      : { key: 'preview.texts', values },
    ...stoppedWords(people.filter(({ grower }) => grower.stopped)),
  ];
}

interface One {
  readonly grower: Grower;
  readonly recipient: Recipient;
}

function recipients(group: Group, broadcast: Broadcast): readonly One[] {
  const blocks = group.blocks.filter(({ id }) => broadcast.blockIds.includes(id));
  const byGrower = new Map<string, { grower: Grower; plots: Recipient['plots'][number][] }>();
  const { kind } = broadcast;
  const news = new Map((kind === 'words' ? [] : broadcast.appointments).map((one) => [one.plotId, one]));
  for (const plot of plotsOf(group, blocks)) {
    const appointment = news.get(plot.id);
    if (kind !== 'words' && !appointment) continue;
    const one = byGrower.get(plot.grower.id) ?? { grower: plot.grower, plots: [] };
    byGrower.set(plot.grower.id, one);
    if (kind !== 'words' && appointment) one.plots.push(plotTold(kind, plot, appointment));
  }
  return [...byGrower.values()].map(({ grower, plots }) => ({
    grower,
    recipient: { name: grower.name, lang: grower.lang, plots },
  }));
}

function plotTold(
  kind: 'water' | 'team',
  plot: GroupPlot,
  { visit }: Appointment,
): Recipient['plots'][number] {
  return { number: plot.number, visit, before: plot[kind] };
}

function onePerPhone(all: readonly One[]): readonly One[] {
  const phones = new Set<string>();
  return all.filter(({ grower }) => {
    if (grower.phone === null || phones.has(grower.phone)) return false;
    phones.add(grower.phone);
    return true;
  });
}

/** All parts; the agent's words take as many for everyone of one language. */
function partsOf(group: Group, broadcast: Broadcast, texts: readonly One[]): number {
  const ofWords = new Map<string, number>();
  let sum = 0;
  for (const { recipient } of texts) {
    const known = broadcast.kind === 'words' ? ofWords.get(recipient.lang) : undefined;
    const parts = known ?? group.partsOf(recipient.lang, broadcastText(broadcast, recipient));
    ofWords.set(recipient.lang, parts);
    sum += parts;
  }
  return sum;
}

function stoppedWords(stopped: readonly One[]): Sentence[] {
  if (stopped.length === 0) return [];
  const names = stopped.slice(0, NAMED).map(({ grower }) => grower.name);
  const more = stopped.length - names.length;
  const rest: readonly Message[] = more > 0 ? [{ key: 'preview.more', values: { count: more } }] : [];
  return [
    { key: 'preview.stopped', values: { count: stopped.length, names: { list: [...names, ...rest] } } },
  ];
}
