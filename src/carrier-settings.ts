/** Settings of an account behind the Twilio-compatible interface: what each must look like, and what must hold between them. */
import { z } from 'zod';

/** Whose account it is when no other carrier's address is set. */
export const USUAL_CARRIER = 'https://api.twilio.com';

const address = z
  .string()
  .regex(/^https?:\/\/[^\s/?#]+\/*$/, 'must be an address without a path, like https://api.example.org');

/** What the line itself answers at: these are added to the public address. */
const OWN_PATHS = /\/(sms|ussd|gateway|healthz|sms\/status|gateway\/report)\/*$/;

const publicAddress = z
  .string()
  .regex(
    /^https?:\/\/[^\s/?#]+(\/[^\s?#]*)?$/,
    'must be an address, like https://line.example.org or https://example.org/line',
  )
  .refine((url) => !OWN_PATHS.test(url), 'must be without the line’s own path, such as /sms: it is added');

/** E.164 has at most 15 digits; short codes have 3 to 8, names at most 11 signs with a letter (both from memory). */
const SENDERS = [
  /^\+[1-9]\d{6,14}$/,
  /^\d{3,8}$/,
  /^(?=.*[A-Za-z])[A-Za-z0-9 +_&-]{1,11}$/,
  /^MG[0-9a-fA-F]{32}$/,
];

/** The settings of the account and of the address that its carrier calls. */
export const CARRIER_SETTINGS = {
  BUNDLINE_TWILIO_URL: address.default(USUAL_CARRIER),
  BUNDLINE_TWILIO_ACCOUNT: z
    .string()
    .regex(/^[^\s/]+$/, 'must be an account’s id, without blanks and slashes')
    .optional(),
  BUNDLINE_TWILIO_TOKEN: z.string().optional(),
  BUNDLINE_TWILIO_FROM: z
    .string()
    .refine(
      (from) => SENDERS.some((sender) => sender.test(from)),
      'must be a number like +447700900999, a short code, a sender’s name of at most 11 letters and digits, ' +
        'or a messaging service’s id (MG and 32 hex digits)',
    )
    .optional(),
  BUNDLINE_PUBLIC_URL: publicAddress.optional(),
};

type Given = Readonly<Record<string, string | undefined>>;

/** What must hold between settings; also when one of them is wrong by itself. */
export function carrierMistakes(given: Given): readonly string[] {
  const mistakes: string[] = [];
  const real = given['BUNDLINE_CARRIER'] === 'twilio';
  if (real && given['BUNDLINE_TWILIO_TOKEN'] === undefined) {
    mistakes.push('BUNDLINE_TWILIO_TOKEN must be set with a real carrier: requests are checked with it');
  }
  if (real && given['BUNDLINE_TWILIO_ACCOUNT'] === undefined) {
    mistakes.push('BUNDLINE_TWILIO_ACCOUNT must be set with a real carrier: texts are sent in its name');
  }
  if (real && given['BUNDLINE_TWILIO_FROM'] === undefined) {
    mistakes.push('BUNDLINE_TWILIO_FROM must be set with a real carrier: the number that texts come from');
  }
  if ((real || given['BUNDLINE_TWILIO_TOKEN'] !== undefined) && given['BUNDLINE_PUBLIC_URL'] === undefined) {
    mistakes.push('BUNDLINE_PUBLIC_URL must be set with a token: the carrier signs the address it calls');
  }
  if (textsPhones(given) && given['BUNDLINE_CLOCK'] !== undefined) {
    mistakes.push('BUNDLINE_CLOCK must not be set with a real carrier: real phones live in real time');
  }
  return [...mistakes, ...otherAccount(given)];
}

/** Whether texts reach real phones. */
export function textsPhones({ BUNDLINE_CARRIER: carrier }: Given): boolean {
  return carrier === 'twilio' || carrier === 'gateway';
}

/** Only the usual carrier's ids are known by their look. */
function otherAccount({ BUNDLINE_TWILIO_ACCOUNT: account, BUNDLINE_TWILIO_URL: url }: Given) {
  const isUsual = url === undefined || url.toLowerCase().replace(/\/+$/, '') === USUAL_CARRIER;
  if (!isUsual || account === undefined || /[\s/]/.test(account)) return [];
  if (/^AC[0-9a-fA-F]{32}$/.test(account)) return [];
  return [
    'BUNDLINE_TWILIO_ACCOUNT must be AC and 32 hex digits; for another carrier set BUNDLINE_TWILIO_URL too',
  ];
}
