/** A carrier that texts nobody: its texts stay in the outbox, where the desk phone reads them. */
import type { Carrier } from './carrier.ts';

/** Takes every text at once; the carrier's id is the text's own key, so that a second try is the same text. */
export function deskCarrier(): Carrier {
  return {
    name: 'desk',
    simulated: true,
    partsPerSecond: null,
    send: async ({ key }) => ({ kind: 'handed', carrierId: `desk:${key}` }),
  };
}
