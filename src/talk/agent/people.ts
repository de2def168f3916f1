/** ADD, MOVE and REMOVE: who grows what where; each is previewed and needs the code, and whom it concerns is told. */
import { USUAL_WAY, VARIETY_DAYS } from '../../agronomy/season.ts';
import type { AgentReading } from '../../hear/reading.ts';
import type { NewPlot, PeopleChange } from '../../scheme/people-change.ts';
import { bareLabel } from '../../scheme/plot-label.ts';
import type { TextEvent } from '../event.ts';
import type { Block, Group, GroupPlot } from '../group.ts';
import { type Part, type Sentence, saying } from '../turn.ts';
import type { World } from '../world.ts';
import { propose } from './code.ts';
import type { AgentMemory, Deed } from './deed.ts';
import { blockMeant, plotsNamed, whichBlock } from './meant.ts';

const USUAL_VARIETY_DAYS = 120;
/** A larger plot is a slip of the finger or another unit. */
const LARGEST_HA = 100;
const LONGEST_NAME = 40;

type Meant = { readonly deed: Extract<Deed, { do: 'people' }>; readonly preview: readonly Sentence[] };

/** The preview of the change, or what is lacking for it. */
export function answerPeople(
  world: World,
  group: Group,
  reading: AgentReading,
  event: TextEvent,
  memory: AgentMemory,
): Part {
  const meant =
    reading.what === 'add'
      ? adding(world, group, reading, event)
      : reading.what === 'move'
        ? moving(group, reading)
        : removing(group, reading);
  return 'deed' in meant ? propose(world, memory, meant.deed, meant.preview) : meant;
}

/** Groups of figures that may be a phone number, and more behind it. */
const FIGURES = /\+?\(?\d[\d().-]*(?:\s+\(?\d[\d().-]*)*/g;

/** The first phone number in a text, as written, and the text around it. */
function phoneIn(group: Group, text: string): { phone: string; before: string; after: string } | null {
  for (const found of text.matchAll(FIGURES)) {
    const groups = found[0].split(/\s+/);
    for (let count = groups.length; count > 0; count -= 1) {
      const written = groups.slice(0, count).join(' ');
      const phone = group.readPhone(written);
      const end = found.index + (found[0].length - groups.slice(count).join(' ').length);
      if (phone !== null) return { phone, before: text.slice(0, found.index), after: text.slice(end) };
    }
  }
  return null;
}

function adding(
  world: World,
  group: Group,
  { text = '', block: said }: AgentReading,
  event: TextEvent,
): Meant | Part {
  const found = phoneIn(group, text);
  if (!found) return saying('people.no-phone');
  const { phone, before, after } = found;
  const words = `${before} ${after}`;
  const others = world.scheme.blocks.filter(({ id }) => !group.blocks.some((one) => one.id === id));
  const block =
    said === undefined
      ? isNamed(others, words)
        ? null
        : blockWithin(group, words)
      : blockMeant(group, said);
  if (!block) return whichBlock(group);
  const name = nameIn(before, block) || nameIn(after, block);
  const areaHa = areaOf(event);
  if (name === '' || areaHa === null) return saying('people.add-how', { block: block.name });
  const known = group.plots.filter(({ grower }) => grower.phone === phone);
  const plot: NewPlot = {
    number: freeNumber(known),
    label: freeLabel(group, block),
    blockId: block.id,
    areaHa,
    way: { ...USUAL_WAY, ...block.way },
    varietyDays: daysIn(words) ?? usualDays(group, block),
    place: null,
  };
  const same = known.find(({ grower }) => grower.name.toLowerCase() === name.toLowerCase())?.grower;
  const lang = event.details.language ?? world.people[0]?.lang ?? 'en';
  const change: PeopleChange = same
    ? { kind: 'add-plot', growerId: same.id, plot }
    : { kind: 'add-grower', name, lang, phone, plots: [plot] };
  const values = { name, phone, plot: plot.label, block: block.name, area: areaHa, days: plot.varietyDays };
  return { deed: { do: 'people', change, plotName: plot.label }, preview: [{ key: 'people.add', values }] };
}

const bare = (text: string) =>
  text
    .toLowerCase()
    .replace(/[^\p{L}\p{M}\p{Nd}]/gu, ' ')
    .trim();

const isNamed = (blocks: readonly Block[], text: string) =>
  blocks.some(({ name }) => ` ${bare(text)} `.includes(` ${bare(name)} `));

/** The block whose name stands in a text; the agent's only one where none does. */
function blockWithin(group: Group, text: string): Block | null {
  const words = ` ${bare(text)} `;
  const found = group.blocks.filter(({ name }) => words.includes(` ${bare(name)} `));
  const [only] = found.length > 0 ? found : group.blocks;
  return (found.length > 0 ? found : group.blocks).length === 1 ? (only ?? null) : null;
}

/** The letters before a comma, a figure or the block's name. */
function nameIn(rest: string, block: Block): string {
  const letters = /^[^\p{L}]*([\p{L}\p{M}'. -]*)/u.exec(rest)?.[1] ?? '';
  const at = ` ${bare(letters)} `.indexOf(` ${bare(block.name)} `);
  return (at < 0 ? letters : letters.slice(0, at)).replace(/[\s.-]+$/u, '').slice(0, LONGEST_NAME);
}

/** The area in the text, in hectares where no unit is named; null when there is none. */
function areaOf({ details }: TextEvent): number | null {
  const named = details.areasHa.findLast((area) => area !== null);
  const areaHa = named ?? details.numbers.findLast((number) => number < VARIETY_DAYS.least);
  return areaHa != null && areaHa > 0 && areaHa <= LARGEST_HA ? areaHa : null;
}

/** A whole number that can be a variety's days, and is no part of another figure. */
function daysIn(text: string): number | null {
  const found = [...text.matchAll(/(?<![\d.,])\d{2,3}(?![\d.,])/g)].map(([figures]) => Number(figures));
  return found.find((days) => days >= VARIETY_DAYS.least && days <= VARIETY_DAYS.most) ?? null;
}

function freeNumber(plots: readonly GroupPlot[]): string {
  let number = 1;
  while (plots.some((plot) => plot.number === String(number))) number += 1;
  return String(number);
}

/** The block's first letter and the next number that no label in the scheme has. */
function freeLabel({ labels }: Group, { name }: Block): string {
  const taken = new Set(labels.map(bareLabel));
  const letter = /[A-Za-z]/.exec(name)?.[0]?.toUpperCase() ?? 'P';
  let number = 1;
  while (taken.has(bareLabel(`${letter}-${number}`))) number += 1;
  return `${letter}-${number}`;
}

function usualDays({ plots }: Group, block: Block): number {
  const days = plots.filter(({ blockId }) => blockId === block.id).map(({ season }) => season.varietyDays);
  const counts = new Map<number, number>();
  for (const one of days) counts.set(one, (counts.get(one) ?? 0) + 1);
  return [...counts].toSorted((a, b) => b[1] - a[1])[0]?.[0] ?? USUAL_VARIETY_DAYS;
}

/** One plot that the text names; else what to say. */
function onePlot(group: Group, [said]: readonly string[] = []): GroupPlot | Part {
  const found = said === undefined ? [] : plotsNamed(group, said);
  const [only] = found;
  if (!only)
    return said === undefined ? saying('people.which-plot') : saying('agent.no-plot', { plot: said });
  return found.length === 1
    ? only
    : saying('agent.which-plot', { plots: { list: found.slice(0, 6).map(({ name }) => name) } });
}

function moving(group: Group, { plots, block: said, text }: AgentReading): Meant | Part {
  const plot = onePlot(group, plots);
  if (!('seasonId' in plot)) return plot;
  const values = { plot: plot.name, name: plot.grower.name };
  const deed = (change: PeopleChange) => ({ do: 'people' as const, change, plotName: plot.name });
  if (text !== undefined) {
    const phone = group.readPhone(text);
    const others = group.plots.filter(({ grower }) => grower.phone === phone);
    const to = others[0]?.grower;
    if (phone === null || !to) return saying('people.no-grower', { phone: text.trim() });
    if (to.id === plot.grower.id) return saying('people.there-already', { plot: plot.name });
    const number = others.some((one) => one.number === plot.number) ? freeNumber(others) : plot.number;
    return {
      deed: deed({ kind: 'give-plot', plotId: plot.id, growerId: to.id, number }),
      preview: [{ key: 'people.give', values: { ...values, to: to.name } }],
    };
  }
  const block = said === undefined ? null : blockMeant(group, said);
  if (!block) return whichBlock(group);
  if (block.id === plot.blockId) return saying('people.there-already', { plot: plot.name });
  return {
    deed: deed({ kind: 'move-plot', plotId: plot.id, blockId: block.id }),
    preview: [{ key: 'people.move', values: { ...values, block: block.name } }],
  };
}

function removing(group: Group, { plots, text }: AgentReading): Meant | Part {
  if (text !== undefined) {
    const phone = group.readPhone(text);
    const own = group.plots.filter(({ grower }) => grower.phone === phone);
    const [first, ...others] = [...new Set(own.map(({ grower }) => grower))];
    if (phone === null || !first) return saying('people.no-grower', { phone: text.trim() });
    if (others.some(({ id }) => id !== first.id)) return saying('people.several', { phone });
    const names = own.map(({ name }) => name);
    return {
      deed: {
        do: 'people',
        change: { kind: 'remove-grower', growerId: first.id },
        plotName: names.join(', '),
      },
      preview: [{ key: 'people.remove-grower', values: { name: first.name, plots: { list: names } } }],
    };
  }
  const plot = onePlot(group, plots);
  if (!('seasonId' in plot)) return plot;
  return {
    deed: { do: 'people', change: { kind: 'remove-plot', plotId: plot.id }, plotName: plot.name },
    preview: [{ key: 'people.remove', values: { plot: plot.name, name: plot.grower.name } }],
  };
}
