/** The screens of a trouble: which, and that it is told to the officer. */
import type { Trouble } from '../../hear/reading.ts';
import { which } from '../phrases.ts';
import type { PlotWorld } from '../world.ts';
import { troubleTold } from './entries.ts';
import { MAIN, type Screen, type ScreenWorld, to } from './screen.ts';
import { backTo, line, UNTURNED, type View } from './view.ts';

const TROUBLES: readonly Trouble[] = ['no-water', 'no-seed', 'no-machine', 'flooded-out', 'pests', 'other'];

const nameOf = (its: ScreenWorld, what: Trouble) =>
  what === 'other' ? line(its, 'screen.other-trouble') : line(its, `trouble.${what}`);

/** Which trouble it is. */
export function troubleView(
  its: ScreenWorld,
  { plotId, page }: Screen & { at: 'trouble' },
  plot: PlotWorld,
): View {
  return {
    ...{ kind: 'list', page, head: [line(its, 'screen.which-trouble', { which: which([plot]) })] },
    options: TROUBLES.map((what) => ({
      label: nameOf(its, what),
      leads: to({ at: 'sure-trouble', plotId, what }),
    })),
    turned: (next) => to({ at: 'trouble', plotId, page: next }),
    back: backTo(its, MAIN),
  };
}

/** "Plot 3: no water." 1 tells it to the officer. */
export function sureTroubleView(
  its: ScreenWorld,
  { plotId, what, key = 1 }: Screen & { at: 'sure-trouble' },
  plot: PlotWorld,
): View {
  const name = nameOf(its, what);
  const values = { which: which([plot]), what: name };
  return {
    ...{ kind: 'list', head: [line(its, 'screen.trouble-sure', values)], ...UNTURNED, first: key },
    options: [{ label: line(its, 'screen.tell'), leads: troubleTold(plot, what, name) }],
    back: backTo(its, { at: 'trouble', plotId, page: 0 }),
  };
}
