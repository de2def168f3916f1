/** The conversation as the line uses it: pure functions of `talk/`, under the names that the shell knows. */
import { weeklyDigest } from '../talk/agent/digest.ts';
import { broadcastText, deliveryText } from '../talk/broadcast-text.ts';
import { planReminders, remind } from '../talk/remind.ts';
import { STATE_VERSION, type TalkState } from '../talk/state.ts';
import { stepOrSilence } from '../talk/step-or-silence.ts';
import { askWhoseFirst } from '../talk/whose-phone.ts';
import type { Talk } from './line.ts';

/** What is stored under this version was written by this step: that is what the version is for. */
export const realTalk: Talk = {
  version: STATE_VERSION,
  step: (state, event, world) => stepOrSilence(state as TalkState | null, event, world),
  plan: planReminders,
  askWhose: askWhoseFirst,
  remind,
  broadcast: broadcastText,
  delivered: deliveryText,
  digest: weeklyDigest,
};
