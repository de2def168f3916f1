/** The fake carrier as tests use it: it signs and counts parts with other people's packages, not with the line's own code. */
import { SegmentedMessage } from 'sms-segments-calculator';
import twilio from 'twilio';
import * as own from '../../src/commands/fake-carrier/fake-carrier.ts';

/** How the carrier's own packages sign and count. */
export const OUTSIDE_TOOLS: own.Tools = {
  sign: (token, url, form) => twilio.getExpectedTwilioSignature(token, url, form),
  countParts: (text) => new SegmentedMessage(text).segmentsCount,
};

/** Starts one that accepts everything and reports nothing until it is told otherwise. */
export function fakeCarrier(
  afterwards: (undo: () => Promise<void> | void) => void,
  ways: Partial<own.Ways> = {},
): Promise<own.FakeCarrier> {
  return own.fakeCarrier(afterwards, ways, OUTSIDE_TOOLS);
}
