/** Whether the carrier knows the account and its token. */
import { authorizationOf, type RestLogin } from '../../carriers/rest-account.ts';
import { type Finding, fieldOf, type Means, reach, well, wrong } from './finding.ts';

/** Reads the account. */
export async function checkAccount(login: RestLogin, means: Means): Promise<Finding> {
  const { baseUrl, accountSid } = login;
  const url = `${baseUrl.replace(/\/+$/, '')}/2010-04-01/Accounts/${encodeURIComponent(accountSid)}.json`;
  const reached = await reach(means, url, { headers: { authorization: authorizationOf(login) } });
  if (!reached.ok)
    return wrong(
      `The carrier cannot be reached at ${baseUrl}: ${reached.why}.`,
      'Check BUNDLINE_TWILIO_URL and this machine’s network.',
    );
  const { status, text } = reached;
  if (status === 401 || status === 403)
    return wrong(
      `The carrier refuses the account or its token (HTTP ${status}).`,
      'Copy BUNDLINE_TWILIO_ACCOUNT and BUNDLINE_TWILIO_TOKEN anew from the carrier’s page.',
    );
  if (status === 404)
    return wrong(
      'The carrier knows no such account (HTTP 404).',
      'Check BUNDLINE_TWILIO_ACCOUNT, and that BUNDLINE_TWILIO_URL is this carrier’s.',
    );
  const state = fieldOf(text, 'status');
  if (status !== 200 || state === null)
    return wrong(
      `What answers at ${baseUrl} is no carrier, or is ill (HTTP ${status}).`,
      'Check BUNDLINE_TWILIO_URL; try again later.',
    );
  if (state !== 'active')
    return wrong(`The account is ${state}.`, 'Ask the carrier to open it again; often a bill is unpaid.');
  return well('The carrier knows the account and its token.');
}
