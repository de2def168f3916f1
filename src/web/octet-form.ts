/** Queries and forms as octets: a gateway may write one field in another charset than the rest, which text would spoil. */
import type { Request } from 'express';

/** The octets of each field, once for every time that it came. */
export type OctetForm = ReadonlyMap<string, readonly Buffer[]>;

/** A gateway sends ten to twenty fields. */
const MOST_FIELDS = 100;

/** Reads `name=value` pairs: "+" is a blank, "%E9" the octet E9; a "%" that begins no octet stands for itself. */
export function octetForm(...encoded: readonly string[]): OctetForm {
  const form = new Map<string, Buffer[]>();
  const pairs = encoded.flatMap((part) => part.split('&')).filter((pair) => pair !== '');
  for (const pair of pairs.slice(0, MOST_FIELDS)) {
    const at = pair.indexOf('=');
    const name = unescaped(at < 0 ? pair : pair.slice(0, at)).toString('utf8');
    const value = unescaped(at < 0 ? '' : pair.slice(at + 1));
    form.set(name, [...(form.get(name) ?? []), value]);
  }
  return form;
}

/** The fields of a request: those of its address, and of its body when that was read as octets. */
export function formOfRequest(request: Request): OctetForm {
  const at = request.originalUrl.indexOf('?');
  const query = at < 0 ? '' : request.originalUrl.slice(at + 1);
  const body: unknown = request.body;
  return octetForm(query, Buffer.isBuffer(body) ? body.toString('latin1') : '');
}

/** The field's octets; null when it is missing, came several times, or has no name in the settings. */
export function octetsIn(form: OctetForm, name: string | null): Buffer | null {
  const [first, ...others] = name === null ? [] : (form.get(name) ?? []);
  return others.length > 0 ? null : (first ?? null);
}

/** The field as plain text; empty when it is missing or came several times. */
export function plainIn(form: OctetForm, name: string | null): string {
  return octetsIn(form, name)?.toString('utf8').trim() ?? '';
}

function unescaped(encoded: string): Buffer {
  const octets = encoded
    .replaceAll('+', ' ')
    .replace(/%([0-9a-f]{2})/gi, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)));
  return Buffer.from(octets, 'latin1');
}
