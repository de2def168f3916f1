/** Who a text is from: a phone number that can be answered, or something that cannot. */
import { type CountryCode, parsePhoneNumberFromString } from 'libphonenumber-js/min';
import { clean } from '../hear/fold.ts';
import { cleanText } from '../store/clean-text.ts';

const E164 = /^\+[1-9]\d{7,14}$/;
/** Services text from numbers of so few digits; answering them makes loops. */
const SHORT_CODE_DIGITS = 6;

/**
 * The sender's number in E.164 form, read with the scheme's country when it has none; digits of any script count.
 * Null for short codes, alphanumeric senders and what is no number. `senderNumber('07700 900001', 'GB')` is "+447700900001".
 */
export function senderNumber(from: string, country: string): string | null {
  // A form that was not encoded turns the plus into a space.
  const written = clean(from)
    .replace(/^ (?=\d)/, '+')
    .trim();
  if (E164.test(written)) return written;
  if (written.replace(/\D/g, '').length <= SHORT_CODE_DIGITS || /[^\d\s+().-]/.test(written)) return null;
  const number = parsePhoneNumberFromString(written, country as CountryCode);
  return number?.isPossible() === true ? number.number : null;
}

/**
 * What one text is known by, however it comes in. Ids are the carrier's own; a sender that makes them up must not get another
 * phone's answer.
 */
export function deliveryId(sid: string, from: string): string {
  return `${cleanText(sid)} ${from}`;
}
