/** Which kinds of phrases are about the work, its water, machines and weather, and not about the line or the one who texts. */
import type { Role } from './sense.ts';

const OF_WORK: ReadonlySet<Role> = new Set<Role>([
  'act',
  'verb',
  'thing',
  'stage',
  'plot',
  'unit',
  'measure',
  'trouble',
  'troubleAlone',
  'troubleThing',
  'lasting',
  'lacking',
  'over',
  'loss',
  'lossThing',
  'gone',
  'rain',
  'sum',
  'sumAsk',
  'agent',
  'tillage',
]);

/** Whether phrases of this kind are about the work: "pump" is, a greeting is not. */
export const isWorkRole = (role: Role): boolean => OF_WORK.has(role);
