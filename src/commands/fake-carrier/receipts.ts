/** Receipts of the fake carrier: signed forms to the address that came with a text. */
import { signForm } from '../../web/signature.ts';

/** A receipt as the carrier words it: "delivered"; "undelivered" with a code. */
export interface ReceiptOut {
  readonly status: string;
  readonly code?: number;
}

/** The signature of a form at an address, made with the account's password. */
export type Sign = (token: string, url: string, form: Readonly<Record<string, string>>) => string;

/** In whose name receipts are sent, and where the line really listens. */
export interface Reporting {
  readonly token: string;
  readonly accountSid: string;
  readonly line: { readonly publicUrl: string; readonly url: string } | null;
  /** The line's own when not given. */
  readonly sign?: Sign;
}

/** Sends the receipt; returns the line's status, 0 when the text came without an address. */
export async function sendReceipt(
  { token, accountSid, line, sign = signForm }: Reporting,
  text: { readonly sid: string; readonly to: string; readonly form: Readonly<Record<string, string>> },
  { status, code }: ReceiptOut,
): Promise<number> {
  const address = text.form['StatusCallback'];
  if (address === undefined) return 0;
  const form = {
    MessageSid: text.sid,
    SmsSid: text.sid,
    MessageStatus: status,
    SmsStatus: status,
    To: text.to,
    From: text.form['From'] ?? '',
    AccountSid: accountSid,
    ApiVersion: '2010-04-01',
    ...(code !== undefined && { ErrorCode: String(code) }),
  };
  const response = await fetch(line ? address.replace(line.publicUrl, line.url) : address, {
    method: 'POST',
    headers: { 'X-Twilio-Signature': sign(token, address, form) },
    body: new URLSearchParams(form),
  });
  await response.body?.cancel();
  return response.status;
}
