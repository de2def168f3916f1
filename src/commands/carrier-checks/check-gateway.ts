/** Whether the gateway can be reached, and whether it takes a test text. */
import { type GatewaySending, gatewayCarrier } from '../../carriers/gateway-carrier.ts';
import { TEST_WORDS } from './check-text.ts';
import { type Finding, type Means, reach, well, wrong } from './finding.ts';

const VALID_MS = 10 * 60_000;

/** Asks the gateway's host for its first page: any answer shows that somebody listens, and nothing is sent by it. */
export async function checkGateway({ url }: GatewaySending, means: Means): Promise<Finding> {
  const { origin } = new URL(url);
  const reached = await reach(means, `${origin}/`);
  if (reached.ok) return well(`The gateway answers at ${origin}.`);
  return wrong(
    `The gateway cannot be reached at ${origin}: ${reached.why}.`,
    'Check send.url in its file, that the gateway runs, and that it is in this machine’s network.',
  );
}

/** Hands one text to the gateway; well when it takes it. Reports of it go to the running line, so only the phone shows more. */
export async function checkGatewayText(sending: GatewaySending, to: string, means: Means): Promise<Finding> {
  const id = 'carrier-check';
  const text = { to, text: TEST_WORDS, id, key: id, attempt: 1, doubtful: false, queuedMs: 0 };
  const handing = await gatewayCarrier(sending, means.fetchFrom).send({ ...text, validForMs: VALID_MS });
  switch (handing.kind) {
    case 'handed':
      return well('The gateway took the test text. See whether the phone has it.');
    case 'failed':
      return wrong(
        `The gateway refused the test text (${handing.why}).`,
        'Check the number, and the fields, user and password that the file gives the gateway.',
      );
    case 'retry':
      return wrong(
        `The gateway did not take the test text now (${handing.why}).`,
        handing.alarm === true
          ? 'Check send.url, user and password in the file, and what the gateway’s own log says.'
          : 'Try again in some minutes.',
      );
    case 'unknown':
      return wrong(
        `Nobody can tell whether the gateway took the test text (${handing.why}).`,
        'See whether the phone has it. If so, set send.taken in the file to what the gateway answers; if not, see its log.',
      );
    default:
      return handing satisfies never;
  }
}
