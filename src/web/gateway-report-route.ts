/** Delivery reports of a plain HTTP gateway: an id and a word, which the settings translate. */
import type { Request, Response } from 'express';
import { ownCarrierId } from '../carriers/gateway-carrier.ts';
import { carrierIdOf } from '../store/outbox.ts';
import type { Line } from '../sweeps/line.ts';
import { takeReceipt } from '../sweeps/take-receipt.ts';
import { formOfRequest, plainIn } from './octet-form.ts';

/** What a report can tell, in the words of `takeReceipt`. */
export const REPORT_STATES = ['queued', 'sent', 'delivered', 'undelivered', 'failed'] as const;

export interface GatewayReports {
  /** The field with our own id of the text; null when only the gateway's comes back. */
  readonly id: string | null;
  /** The field with the gateway's id of it. */
  readonly gatewayId: string | null;
  readonly status: string;
  /** What each of the gateway's words means; a word that is not here is taken and tells nothing. */
  readonly words: Readonly<Record<string, (typeof REPORT_STATES)[number]>>;
}

/** Keeps one report; 204 whether or not it tells anything new, so that it is not sent again; 400 without an id or status. */
export function gatewayReportRoute(line: Line, reports: GatewayReports) {
  return async (request: Request, response: Response): Promise<void> => {
    const form = formOfRequest(request);
    const [id, gatewayId] = [plainIn(form, reports.id), plainIn(form, reports.gatewayId)];
    const word = plainIn(form, reports.status);
    if ((id === '' && gatewayId === '') || word === '') {
      response.status(400).type('text/plain').send('Missing or repeated: the id or the status.\n');
      return;
    }
    const status = Object.hasOwn(reports.words, word) ? reports.words[word] : undefined;
    if (status === undefined) line.log.warn({}, 'a delivery report has a word that the settings do not know');
    else await keep(line, { id, gatewayId, status });
    response.status(204).end();
  };
}

async function keep(
  line: Line,
  { id, gatewayId, status }: { readonly id: string; readonly gatewayId: string; readonly status: string },
): Promise<void> {
  const known = id === '' ? null : await carrierIdOf(line.db, id);
  const carrierId = known ?? (gatewayId || ownCarrierId(id));
  await takeReceipt(line, { id: id || null, carrierId, status, errorCode: null });
}
