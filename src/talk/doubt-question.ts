/** The questions that doubtful reports raise, with their numbered ways out. */
import type { Day } from '../plan/day.ts';
import type { Message } from '../say/message.ts';
import type { Judged, Verdict } from './doubt.ts';
import { leave, numbered, type Option } from './numbered.ts';
import { activityName, doneSentence, inside, officer, which } from './phrases.ts';
import { type Part, type Sentence, spare } from './turn.ts';
import type { NewReport, PlotWorld, World } from './world.ts';

/** The question that a doubtful report raises. */
export function doubtQuestion(world: World, { plot, verdict }: Judged, more: boolean): Part {
  const rest: Sentence[] = more ? [spare('ask.rest')] : [];
  const ask = (head: Message, options: readonly Option[]): Part => {
    const part = options.length > 0 ? numbered([head], options) : { say: [head] };
    return { ...part, say: [...part.say, ...rest], topic: { plotId: plot.id, activity: null } };
  };
  switch (verdict.kind) {
    case 'again':
      return ask(
        doneSentence(
          verdict.report.activity,
          [plot],
          verdict.earlier,
          'ask.done-again',
          'ask.done-again-unknown',
        ),
        sameOrAgain(verdict),
      );
    case 'jump':
      return ask({ key: 'ask.jump', values: { inside: inside([plot]) } }, [
        {
          what: doneSentence(
            verdict.report.activity,
            [plot],
            verdict.report.on,
            'choice.report',
            'choice.report-unknown',
          ),
          leads: { do: 'record', reports: [verdict.report] },
        },
        ...meant(plot, verdict),
        leave('choice.nothing'),
      ]);
    case 'later-done':
      return ask(doneSentence(verdict.later, [plot], verdict.on, 'ask.later-done'), [
        ...(verdict.again ? [again(verdict.report)] : []),
        {
          what: { key: 'choice.before' },
          leads: { do: 'record', reports: [{ ...verdict.report, on: null }] },
        },
        leave('choice.nothing'),
      ]);
    case 'foreign':
      return ask(
        {
          key: 'ask.foreign',
          values: { which: which([plot]), activity: activityName(verdict.activity), ...officer(world) },
        },
        [],
      );
    case 'bunds':
      return ask({ key: 'ask.bunds', values: { plot: plot.number } }, []);
    case 'too-early':
      return ask(doneSentence(verdict.before, [plot], verdict.on, 'ask.order-back'), []);
    case 'sure':
    case 'already':
      return { say: [] };
  }
}

/** A day that was said comes first; else the same thing was most likely texted twice. */
function sameOrAgain(verdict: Verdict & { kind: 'again' }): Option[] {
  const more = verdict.again ? [again(verdict.report)] : [];
  const same = leave('choice.same');
  return verdict.dayStated
    ? [...correctDay(verdict), same, ...more]
    : [same, ...more, ...correctDay(verdict)];
}

/** "The day was Mon 8 Mar": a new report that stands in for the one with the wrong day. */
function correctDay({ report, standing }: Verdict & { kind: 'again' }): Option[] {
  if (report.on === null || standing === null) return [];
  const what = { key: 'choice.other-day', values: { day: { day: report.on } } };
  return [{ what, leads: { do: 'record', reports: [{ ...report, corrects: standing }] } }];
}

function meant(plot: PlotWorld, { report, meant: activity }: Verdict & { kind: 'jump' }): Option[] {
  if (activity === null) return [];
  const instead = { ...report, activity, measures: {} };
  const what = doneSentence(activity, [plot], report.on, 'choice.report', 'choice.report-unknown');
  return [{ what, leads: { do: 'record', reports: [instead] } }];
}

function again(report: NewReport): Option {
  const on: Day = report.on ?? 0;
  return {
    what: { key: 'choice.again', values: { day: { day: on } } },
    leads: { do: 'record', reports: [report] },
  };
}
