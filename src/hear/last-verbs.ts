/** Languages that put their verbs last ("চাষ ... করেছি"): joins a word for work to the helping verbs behind it, and cuts after them. */

import { FORM_SAYS, type Form } from './forms.ts';
import { verbSense } from './head.ts';
import type { Lexicon } from './lexicon.ts';
import { means, type Node, type Sense, senseOf } from './sense.ts';

const FILLER: readonly Sense[] = [{ role: 'filler', value: 'filler' }];
/** Forms that wait for a helping verb: "চাষ", "করে". */
const WAITING: readonly (Form | undefined)[] = ['naming', 'linking'];
const JOINS = ['and', 'or', 'then', 'but'];
/** Words that end what is said of some work. */
const CLOSING = ['started', 'finished', 'nearly', 'stopped'];

const others = (node: Node, verb: Sense) => node.senses.filter((sense) => sense !== verb);
/** "why" asks of the work beside it and ends nothing. */
const isAsk = (node: Node) => senseOf(node, 'ask') !== undefined && !means(node, 'ask', 'why');
const isBreak = (node: Node) => node.mark !== undefined || JOINS.some((join) => means(node, 'join', join));

/** What a helping verb still says where no work stands before it. */
function loneSenses({ form }: Sense): readonly Sense[] {
  const mark = form && FORM_SAYS[form];
  return mark ? [{ role: 'mark', value: mark }] : FILLER;
}

const closes = (node: Node) => CLOSING.some((stage) => means(node, 'stage', stage));

/** The work where the helping verb stands, in its form and with the marks of both. */
function joined(work: Node, helper: Node): Node {
  const [verb, help] = [verbSense(work)!, verbSense(helper)!];
  const senses = [{ ...verb, form: help.form! }, ...others(work, verb), ...others(helper, help)];
  return { ...helper, senses, raw: `${work.raw} ${helper.raw}` };
}

/**
 * The nodes with helping verbs joined to the work before them, whatever stands between: in "চাষ ৩ নং শেষ করেছি" the last word
 * is "ploughed". A helping verb with nothing to help ("tiller দিয়ে", "৪ নং করিনি") says no more than "not" and the like.
 */
export function joinHelpers(nodes: readonly Node[], { verbsLast, helpers }: Lexicon): readonly Node[] {
  if (!verbsLast) return nodes;
  const out: Node[] = [];
  let waiting = -1;
  let bare = true;
  for (const node of nodes) {
    const verb = verbSense(node);
    const helps = verb?.role === 'verb' && helpers.has(verb.value);
    if (helps && waiting >= 0) {
      const [work] = out.splice(waiting, 1) as [Node];
      out.push(joined(work, node));
    } else if (helps && bare) {
      out.push({ ...node, senses: [...others(node, verb), ...loneSenses(verb)] });
      continue;
    } else out.push(node);
    if (isBreak(node) || isAsk(node)) [waiting, bare] = [-1, true];
    else if (verb) [waiting, bare] = [WAITING.includes(verb.form) ? out.length - 1 : -1, false];
    else if (senseOf(node, 'thing')) [waiting, bare] = [-1, false];
  }
  return out;
}

/** What may stand before a verb that comes last; "ঘাস শেষ করলাম" is one clause. */
const beginsWork = (node: Node) =>
  isArgument(node) ||
  isAsk(node) ||
  senseOf(node, 'thing') !== undefined ||
  senseOf(node, 'act') !== undefined;
const isWork = (node: Node) =>
  verbSense(node) !== undefined || senseOf(node, 'thing') !== undefined || isAsk(node);
const isArgument = (node: Node) =>
  node.plots !== undefined || node.said !== undefined || node.measures !== undefined;

/** Where clauses begin: behind a verb, or behind "finished" and the like, at the next word that belongs to other work. */
export function lastVerbCuts(nodes: readonly Node[]): number[] {
  const cuts: number[] = [];
  let closed: 'by-verb' | 'by-stage' | null = null;
  let named = false;
  for (const [i, node] of nodes.entries()) {
    const begins = beginsWork(node) || (closed === 'by-verb' && verbSense(node) !== undefined);
    if (closed && begins && nodes.slice(i).some(isWork)) {
      cuts.push(i);
      closed = null;
      named = false;
    }
    named ||= senseOf(node, 'thing') !== undefined;
    if (verbSense(node) || isAsk(node)) closed = 'by-verb';
    else if (named && closes(node)) closed ??= 'by-stage';
  }
  return cuts;
}
