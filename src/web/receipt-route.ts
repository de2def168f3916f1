/** Receipts of a Twilio-compatible carrier: what became of the texts that it took. */
import type { Request, Response } from 'express';
import type { Line } from '../sweeps/line.ts';
import { takeReceipt } from '../sweeps/take-receipt.ts';
import { formOf, partsOf, textOf } from './form.ts';

/** Keeps one receipt; 204 whether or not it tells anything new, so that it is not sent again; 400 without a message or state. */
export function receiptRoute(line: Line) {
  return async (request: Request, response: Response): Promise<void> => {
    const form = formOf(request);
    const carrierId = textOf(form['MessageSid']) || textOf(form['SmsSid']);
    const status = textOf(form['MessageStatus']) || textOf(form['SmsStatus']);
    if (carrierId === '' || status === '') {
      response.status(400).type('text/plain').send('Missing or repeated: MessageSid, MessageStatus.\n');
      return;
    }
    const { text } = request.query;
    const id = typeof text === 'string' && text !== '' ? text : null;
    const code = Number.parseInt(textOf(form['ErrorCode']), 10);
    const parts = partsOf(textOf(form['NumSegments']));
    await takeReceipt(line, { id, carrierId, status, errorCode: Number.isNaN(code) ? null : code, parts });
    response.status(204).end();
  };
}
