/** Commands whose words stand in lists of their own, heard on an agent's phone only. */

/** What these words open, or close where verbs come last. */
export const AGENT_ONLY = [
  'move',
  'remove',
  'steps',
  'digest',
  'more',
  'stopped',
  'code',
  // Other words for what any phone is heard for.
  'flood',
  'tell',
  'ready',
  'late',
  'turns',
  'tiller',
] as const;
export type AgentOnly = (typeof AGENT_ONLY)[number];
