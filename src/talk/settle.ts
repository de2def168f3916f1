/** Answers to the line's own questions: a number picked, or the plot that was meant. */
import type { SeasonChange } from '../agronomy/season.ts';
import type { Reading } from '../hear/reading.ts';
import type { TextEvent } from './event.ts';
import { tellNext } from './next-step.ts';
import { inside } from './phrases.ts';
import { planned, remindEffects } from './planned.ts';
import { findPlots } from './plots.ts';
import { plotsIn } from './plots-in.ts';
import type { Outcome, Standing } from './state.ts';
import { undoReports } from './take-back.ts';
import { takeSettled } from './take-reports.ts';
import { recordRains } from './tell-rain.ts';
import { type Part, saying } from './turn.ts';
import type { World } from './world.ts';

type Read = (readings: readonly Reading[]) => readonly Part[];

/** The answer to "which plot?"; null when the text is something else. */
export function answerPlot(
  world: World,
  standing: Standing & { at: 'which-plot' },
  event: TextEvent,
  read: Read,
): readonly Part[] | null {
  const plots = plotsIn(event);
  if (plots === null) return null;
  const found = findPlots(world, plots);
  if (found.kind === 'unknown') {
    const list = world.plots.map(({ number }) => number);
    return [
      {
        ...saying('plots.unknown', { plot: found.said, plots: { list } }),
        standing,
      },
    ];
  }
  return read(standing.readings.map((reading) => ('plots' in reading ? { ...reading, plots } : reading)));
}

/** What the picked option does; a number that is not among them asks again. */
export function followPick(
  world: World,
  standing: Standing & { at: 'choose' },
  pick: number,
  asked: readonly string[],
  read: Read,
): readonly Part[] {
  const outcome = standing.options[pick - 1];
  return outcome ? follow(world, outcome, asked, read) : [{ ...saying('choice.not-among'), standing }];
}

function follow(world: World, outcome: Outcome, asked: readonly string[], read: Read): readonly Part[] {
  switch (outcome.do) {
    case 'read':
      return read(outcome.readings);
    case 'record':
      return [takeSettled(world, outcome.reports, asked)];
    case 'record-rain':
      return [recordRains(world, outcome.rains, outcome.replaces)];
    case 'rename':
      return [rename(outcome)];
    case 'undo':
      return [undoReports(world, outcome.reports)];
    case 'change-season':
      return [changeSeason(world, outcome)];
    case 'forget':
      return [
        {
          ...saying('account.forgotten'),
          effects: [{ do: 'forget', personId: outcome.personId }],
        },
      ];
    case 'unlink':
      return [unlink(outcome)];
    case 'say':
      return [{ say: [sayLater(outcome)] }];
    case 'speak':
    case 'vouch':
    case 'ask-release':
    case 'release':
      // Answered before any other question; a number of a doubt that is over means nothing any more.
      return [saying('choice.no-question')];
  }
}

function unlink({ personId, phone }: Outcome & { do: 'unlink' }): Part {
  return { ...saying('phone.taken-away'), effects: [{ do: 'unlink-phone', personId, phone }] };
}

function rename({ personId, name }: Outcome & { do: 'rename' }): Part {
  return { ...saying('account.renamed', { name }), effects: [{ do: 'rename', personId, name }] };
}

/** Options keep plain values; the word to text is a message of its own. */
function sayLater({ key, values }: Outcome & { do: 'say' }) {
  const { activity, plot } = values;
  if (activity === undefined || plot === undefined) return { key };
  return { key, values: { word: { key: `word.${activity}` }, plot } };
}

function changeSeason(world: World, { seasonId, change }: Outcome & { do: 'change-season' }): Part {
  const plot = world.plots.find((one) => one.seasonId === seasonId);
  if (!plot) return saying('choice.no-question');
  const plan = planned(world, plot, { season: change });
  const next = tellNext(world, [plan]);
  const key = notedKey(change);
  return {
    ...next,
    say: [{ key, values: { inside: inside([plot]) } }, ...next.say],
    effects: [
      { do: 'change-season', seasonId, change },
      ...remindEffects(world, [plan]),
      ...(next.effects ?? []),
    ],
  };
}

function notedKey(change: SeasonChange): string {
  if (change.way) return 'choice.unploughed-noted';
  if (change.cropLostOn !== undefined) return 'trouble.crop-noted';
  return change.nurseryGivenUpOn === undefined ? 'choice.older-noted' : 'choice.afresh-noted';
}
