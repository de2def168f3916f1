/** Whether the public address leads to our own running line, and whether that takes what is signed and nothing else. */
import { receiptUrl } from '../../web/create-app.ts';
import { signForm } from '../../web/signature.ts';
import type { Signing } from '../../web/sms-route.ts';
import { type Finding, type Means, type Reached, reach, well, wrong } from './finding.ts';

/** A receipt of a text that nobody sent: the line keeps nothing of it. */
const RECEIPT = { MessageSid: 'SM00000000000000000000000000000000', MessageStatus: 'queued' };

/** Asks the line's health over its public address. */
export function checkPublicUrl({ publicUrl }: Signing, means: Means): Promise<Finding> {
  return checkHealth(publicUrl.replace(/\/+$/, ''), 'BUNDLINE_PUBLIC_URL', means);
}

/** Asks the line's health at this address, which the named setting gives. */
export async function checkHealth(
  base: string,
  setting: 'BUNDLINE_PUBLIC_URL' | 'PORT',
  means: Means,
): Promise<Finding> {
  const url = `${base}/healthz`;
  const isPublic = setting === 'BUNDLINE_PUBLIC_URL';
  const reached = await reach(means, url);
  if (!reached.ok)
    return wrong(
      `The ${isPublic ? 'public address' : 'line'} cannot be reached: ${url}: ${reached.why}.`,
      `Check ${setting}, and that the line runs${isPublic ? ', and the proxy before it' : ''}.`,
    );
  const { status, text } = reached;
  if (status === 200 && text.trim() === 'ok') return well(`The line answers at ${url}.`);
  if (status === 503)
    return wrong('The line answers, but its database does not (HTTP 503).', 'Look into the line’s log.');
  return wrong(
    `Something else than the line answers at ${url} (HTTP ${status}).`,
    isPublic
      ? 'Check BUNDLINE_PUBLIC_URL. The proxy must pass requests on unchanged; only a path that stands in this setting is taken off.'
      : 'Check PORT: another program has it.',
  );
}

/** Sends one request as the carrier signs it, and one with another signature. */
export async function checkSignature({ token, publicUrl }: Signing, means: Means): Promise<Finding> {
  const url = receiptUrl(publicUrl);
  const signature = signForm(token, url, RECEIPT);
  const good = await post(url, signature, means);
  const bad = await post(url, signForm(`${token}x`, url, RECEIPT), means);
  if (!good.ok || !bad.ok)
    return wrong(`No signed request reaches ${url}.`, 'Mend what is said of the public address first.');
  if (good.status === 403)
    return wrong(
      'The running line refuses what is signed with this token for this address (HTTP 403).',
      'Start the line with the same BUNDLINE_TWILIO_TOKEN and BUNDLINE_PUBLIC_URL as this check.',
    );
  if (good.status !== 204)
    return wrong(
      `A signed request is not taken at ${url} (HTTP ${good.status}).`,
      'The proxy must pass POST to /sms and /sms/status on to the line unchanged.',
    );
  if (bad.status !== 403)
    return wrong(
      `A wrong signature is not refused (HTTP ${bad.status}): anybody could text in another’s name.`,
      'Start the line with BUNDLINE_TWILIO_TOKEN set.',
    );
  return well('The line takes signed requests and refuses others.');
}

function post(url: string, signature: string, means: Means): Promise<Reached> {
  const headers = { 'X-Twilio-Signature': signature };
  return reach(means, url, { method: 'POST', headers, body: new URLSearchParams(RECEIPT) });
}
