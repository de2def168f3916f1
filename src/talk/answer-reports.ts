/** The answer to reports: what was written down, whether it was well done, what comes next, or a question first. */
import type { Activity } from '../agronomy/season.ts';
import { checks } from './checks.ts';
import type { Judged, Verdict } from './doubt.ts';
import { doubtQuestion } from './doubt-question.ts';
import { echoes, taken } from './echo.ts';
import type { Effect } from './effect.ts';
import { tellNext } from './next-step.ts';
import { type Planned, planned, remindEffects } from './planned.ts';
import type { Topic } from './state.ts';
import type { Part, Sentence } from './turn.ts';
import { askWaysOut, stillOld, tellWaysOut } from './ways-out.ts';
import type { World } from './world.ts';

/** Writes what is sure, echoes it, and asks the first thing that is not. */
export function answerReports(world: World, judged: readonly Judged[], asked: readonly string[]): Part {
  const sure = judged.flatMap(({ verdict }) => (verdict.kind === 'sure' ? [verdict.report] : []));
  const doubtful = judged.filter(({ verdict }) => verdict.kind !== 'sure' && verdict.kind !== 'already');
  const plots = [...new Set(judged.filter(({ verdict }) => verdict.kind === 'sure').map(({ plot }) => plot))];
  const plans = plots.map((plot) => planned(world, plot, { added: sure }));
  const effects: Effect[] = sure.map((report) => ({ do: 'record', report }));
  effects.push(...remindEffects(world, plans));
  const checked = checks(world, judged, plans);
  const [doubt] = doubtful;
  const whole = doubt
    ? doubtQuestion(world, doubt, doubtful.length > 1)
    : onwards(world, plans, judged, asked);
  const known = taken(world, plans);
  // A fault of the work and several things to do come first: what is taken as done stands as far as there is room.
  const isFull = checked.say.length > 0 && whole.say.length > 1;
  const beside = [...checked.say, ...(isFull ? known.map(asSpare) : known)];
  const head: Sentence[] = [...echoes(judged), ...(whole.standing ? beside.map(asSpare) : beside)];
  const tail = checked.say.some(({ key }) => key !== 'check.plough-depth-good') ? shortened(whole) : whole;
  const topic = warnedOf(whole.topic, plans, checked.rule);
  return {
    ...tail,
    ...(topic && { topic }),
    say: [...head, ...tail.say],
    effects: [...effects, ...(tail.effects ?? [])],
  };
}

/** Beside a question, what is said of the work may go. */
const asSpare = (sentence: Sentence): Sentence => ({ ...sentence, spare: true });

/** What WHY is about: the warning, where there was one. */
function warnedOf(
  topic: Topic | undefined,
  plans: readonly Planned[],
  rule: string | null,
): Topic | undefined {
  const plotId = topic?.plotId ?? plans[0]?.plot.id;
  if (rule === null || plotId === undefined) return topic;
  return { plotId, activity: topic?.activity ?? null, rule };
}

/** Where there is something to say about the work itself, what comes beside the next step may go, and a caution waits. */
function shortened(part: Part): Part {
  const beside = (key: string) => key === 'next.also' || key === 'next.then';
  const say = part.say.filter(({ key }) => !key.startsWith('caution.'));
  return {
    ...part,
    say: say.map((one) => (beside(one.key) ? { ...one, spare: true } : one)),
    effects: (part.effects ?? []).filter((effect) => effect.do !== 'cautioned'),
  };
}

function onwards(
  world: World,
  plans: readonly Planned[],
  judged: readonly Judged[],
  asked: readonly string[],
): Part {
  const already = judged
    .filter(({ verdict }) => verdict.kind === 'already')
    .map(({ plot }) => planned(world, plot));
  const all = plans.length > 0 ? plans : already;
  const after = judged.flatMap(({ verdict }) => activityOf(verdict)).at(-1);
  const question = askWaysOut(world, all, ({ plot }) => asked.includes(plot.seasonId));
  if (question) return question;
  const next = tellNext(world, all, after === undefined ? {} : { after });
  const told = [...tellWaysOut(world, all), ...stillOld(all)];
  const rest = told.length > 0 ? shortened(next) : next;
  return { ...rest, say: [...tellWaysOut(world, all), ...rest.say, ...stillOld(all)] };
}

function activityOf(verdict: Verdict): readonly Activity[] {
  if (verdict.kind === 'sure') return [verdict.report.activity];
  return verdict.kind === 'already' ? [verdict.activity] : [];
}
