/** The steps of the work in the order of the field, and what doing one tells about the others. */
import type { Step, When } from '../rulebook.ts';

const ploughed: When = { tillage: ['hoe', 'animals', 'two-wheel'] };

/** Grace days are Bundline's judgement: late weeding still helps, late gap-filling and feeding do not. */
export const STEPS: readonly Step[] = [
  { activity: 'clear', implies: [] },
  { activity: 'soak', implies: ['clear'], when: ploughed },
  { activity: 'plough', implies: ['soak'], when: ploughed },
  { activity: 'rough-level', implies: ['plough'], when: ploughed },
  { activity: 'flood', implies: ['rough-level'] },
  { activity: 'manure', implies: ['flood'], optional: true, when: ploughed },
  { activity: 'puddle', implies: ['flood'], when: ploughed },
  { activity: 'basal', implies: ['flood'], optional: true, onlyIfBasalAdvised: true, when: ploughed },
  { activity: 'level', implies: ['puddle'], when: ploughed },
  { activity: 'pregerminate', implies: [] },
  { activity: 'sow-nursery', implies: ['pregerminate'] },
  { activity: 'transplant', implies: ['level', 'sow-nursery'] },
  { activity: 'gap-fill', implies: ['transplant'], graceDays: 0 },
  { activity: 'weed', round: 1, implies: ['transplant'], graceDays: 7 },
  { activity: 'weed', round: 2, implies: ['transplant'], graceDays: 7 },
  { activity: 'topdress', round: 1, implies: ['transplant'], graceDays: 0 },
  { activity: 'topdress', round: 2, implies: ['transplant'], graceDays: 0 },
  { activity: 'drain', implies: ['transplant'] },
  { activity: 'harvest', implies: ['drain'] },
];
