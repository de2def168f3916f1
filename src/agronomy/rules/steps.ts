/** The steps of the work in the order of the field, and what doing one tells about the others. */
import type { Step, When } from '../rulebook.ts';

const ploughed: When = { tillage: ['hoe', 'animals', 'two-wheel'] };
const transplanted: When = { establishment: ['transplant'] };
const seeded: When = { establishment: ['wet-seed'] };

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
  { activity: 'sow-nursery', implies: ['pregerminate'], when: transplanted },
  { activity: 'transplant', implies: ['level', 'sow-nursery'], when: transplanted },
  { activity: 'sow-direct', implies: ['level', 'pregerminate'], when: seeded },
  { activity: 'gap-fill', implies: ['transplant'], graceDays: 0, when: transplanted },
  { activity: 'weed', round: 1, implies: ['transplant', 'sow-direct'], graceDays: 7 },
  { activity: 'weed', round: 2, implies: ['transplant', 'sow-direct'], graceDays: 7 },
  { activity: 'topdress', round: 1, implies: ['transplant', 'sow-direct'], graceDays: 0 },
  { activity: 'topdress', round: 2, implies: ['transplant', 'sow-direct'], graceDays: 0 },
  { activity: 'drain', implies: ['transplant', 'sow-direct'] },
  { activity: 'harvest', implies: ['drain'] },
];
