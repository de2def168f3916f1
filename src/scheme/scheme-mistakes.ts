/** Mistakes that a scheme file's single fields cannot show: names that name nothing, things named twice, spans turned round. */
import { groupMistakes } from './group-section.ts';
import type { PlacedMistake } from './placed-mistake.ts';
import { bareLabel } from './plot-label.ts';
import type { SchemeFile } from './scheme-shape.ts';

/** All such mistakes, in the order of the file. */
export function schemeMistakes(file: SchemeFile): readonly PlacedMistake[] {
  return [
    ...twice(
      file.blocks.map(({ id }) => id),
      (index) => ['blocks', index, 'id'],
    ),
    ...file.blocks.flatMap((block, index) =>
      (['water', 'target'] as const).flatMap((key) => turned(block[key], ['blocks', index, key])),
    ),
    ...twice(
      file.people.map(({ id }) => id),
      (index) => ['people', index, 'id'],
    ),
    ...file.people.flatMap((person, index) =>
      file.languages.includes(person.lang)
        ? []
        : [{ path: ['people', index, 'lang'], what: `"${person.lang}" is not among the scheme's languages` }],
    ),
    ...twice(
      file.plots.map(({ id }) => id),
      (index) => ['plots', index, 'id'],
    ),
    ...file.plots.flatMap((plot, index) => plotMistakes(file, plot, index)),
    ...numbersTwice(file),
    ...labelsTwice(file),
    ...groupMistakes(file),
  ];
}

function plotMistakes(file: SchemeFile, plot: SchemeFile['plots'][number], index: number): PlacedMistake[] {
  const mistakes: PlacedMistake[] = [];
  const owner = file.people.find(({ id }) => id === plot.owner);
  if (!owner) mistakes.push({ path: ['plots', index, 'owner'], what: `nobody has the id "${plot.owner}"` });
  if (owner?.role === 'agent')
    mistakes.push({ path: ['plots', index, 'owner'], what: `"${plot.owner}" is an agent` });
  if (!file.blocks.some(({ id }) => id === plot.block)) {
    mistakes.push({ path: ['plots', index, 'block'], what: `no block has the id "${plot.block}"` });
  }
  return mistakes;
}

function twice(
  ids: readonly string[],
  path: (index: number) => readonly (string | number)[],
): PlacedMistake[] {
  return ids.flatMap((id, index) =>
    ids.indexOf(id) < index ? [{ path: path(index), what: `"${id}" is there twice` }] : [],
  );
}

function turned(
  { from, to }: { from: number | null; to: number | null },
  path: readonly (string | number)[],
): PlacedMistake[] {
  return from !== null && to !== null && from > to
    ? [{ path, what: 'the end comes before the beginning' }]
    : [];
}

/** A plot's number must be unique on every phone that its owner uses. */
function numbersTwice(file: SchemeFile): PlacedMistake[] {
  const seen = new Map<string, number>();
  return file.plots.flatMap((plot, index) => {
    const phones = file.people.find(({ id }) => id === plot.owner)?.phones ?? [];
    const clash = phones.map((phone) => `${phone} ${plot.number}`).filter((key) => seen.has(key));
    for (const phone of phones) seen.set(`${phone} ${plot.number}`, index);
    return clash.length > 0
      ? [{ path: ['plots', index, 'number'], what: `plot ${plot.number} is there twice on one phone` }]
      : [];
  });
}

/** A label names one plot of the scheme. */
function labelsTwice(file: SchemeFile): PlacedMistake[] {
  const bare = file.plots.map(({ label }) => (label === null ? null : bareLabel(label)));
  return file.plots.flatMap(({ label }, index) =>
    label !== null && bare.indexOf(bareLabel(label)) < index
      ? [{ path: ['plots', index, 'label'], what: `"${label}" is there twice` }]
      : [],
  );
}
