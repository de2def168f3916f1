/** A confirmed change of people: made, and told to the growers whom it concerns. */
import type { PeopleChange } from '../../scheme/people-change.ts';
import type { Effect } from '../effect.ts';
import type { Group } from '../group.ts';
import { officer } from '../phrases.ts';
import type { Sentence } from '../sentence.ts';
import { type Part, saying } from '../turn.ts';
import type { World } from '../world.ts';
import type { Deed } from './deed.ts';

/** Makes the change, and tells the grower whom it concerns. */
export function changePeople(
  world: World,
  group: Group,
  { change, plotName }: Extract<Deed, { do: 'people' }>,
): Part {
  return {
    ...saying('people.done', { plot: plotName }),
    effects: [{ do: 'change-people', change }, ...toldTo(world, group, change)],
  };
}

function toldTo(world: World, group: Group, change: PeopleChange): Effect[] {
  const text = (
    grower: { phone: string | null; stopped?: boolean; lang: string },
    sentences: readonly Sentence[],
  ): Effect[] =>
    grower.phone === null || grower.stopped
      ? []
      : [{ do: 'text', phone: grower.phone, lang: grower.lang, saying: { sentences } }];
  const owner = (plotId: string) => group.plots.find(({ id }) => id === plotId);
  switch (change.kind) {
    case 'add-grower': {
      const [plot] = change.plots;
      const values = {
        name: change.name,
        scheme: world.scheme.name,
        plot: plot?.number ?? '1',
        area: plot?.areaHa ?? 0,
      };
      return text(change, [
        { key: 'people.welcome', values },
        { key: 'people.welcome-stop', values: officer(world) },
      ]);
    }
    case 'add-plot': {
      const grower = group.plots.find((one) => one.grower.id === change.growerId)?.grower;
      const values = { plot: change.plot.number, area: change.plot.areaHa };
      return grower ? text(grower, [{ key: 'people.your-new-plot', values }]) : [];
    }
    case 'give-plot': {
      const to = group.plots.find((one) => one.grower.id === change.growerId)?.grower;
      const plot = owner(change.plotId);
      if (!to || !plot) return [];
      return [
        ...text(to, [
          { key: 'people.your-new-plot', values: { plot: change.number, area: plot.season.areaHa } },
        ]),
        ...text(plot.grower, [{ key: 'people.your-plot-gone', values: { plot: plot.number } }]),
      ];
    }
    case 'move-plot': {
      const plot = owner(change.plotId);
      const block = group.blocks.find(({ id }) => id === change.blockId);
      return plot && block
        ? text(plot.grower, [
            { key: 'people.your-plot-moved', values: { plot: plot.number, block: block.name } },
          ])
        : [];
    }
    case 'remove-plot': {
      const plot = owner(change.plotId);
      return plot ? text(plot.grower, [{ key: 'people.your-plot-gone', values: { plot: plot.number } }]) : [];
    }
    case 'remove-grower': {
      const grower = group.plots.find((one) => one.grower.id === change.growerId)?.grower;
      return grower ? text(grower, [{ key: 'people.you-are-out', values: officer(world) }]) : [];
    }
  }
}
