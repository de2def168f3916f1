/** Templates with named places, "to={to}&text={text}", and how each place is written into an address, a form or JSON. */

/** What a place stands for: a text, or octets in the charset that the gateway is told of. */
export type PlaceValues = Readonly<Record<string, string | Uint8Array>>;

/** A JSON structure whose strings may have places. */
export type JsonTemplate =
  | string
  | number
  | boolean
  | null
  | readonly JsonTemplate[]
  | { readonly [name: string]: JsonTemplate };

const PLACE = /\{([A-Za-z][A-Za-z0-9_]*)\}/g;
/** Characters that stand for themselves anywhere in an address (RFC 3986, 2.3). */
const UNRESERVED = /[A-Za-z0-9._~-]/;

/** The names of a template's places, each as often as it is there. */
export function placesIn(template: string): readonly string[] {
  return [...template.matchAll(PLACE)].map(([, name = '']) => name);
}

/** The address with every value percent-encoded. `fillUrl('http://a/?t={t}', { t: 'é' })` is "http://a/?t=%C3%A9". */
export function fillUrl(template: string, values: PlaceValues): string {
  return template.replace(PLACE, (_, name: string) => percentEncoded(values[name] ?? ''));
}

/** A form's body; what a template has beside its places is encoded too. */
export function fillForm(fields: Readonly<Record<string, string>>, values: PlaceValues): string {
  return Object.entries(fields)
    .map(([name, template]) => `${percentEncoded(name)}=${encodedAround(template, values)}`)
    .join('&');
}

/** The structure with every string filled; octets cannot stand in JSON, so `values` are texts. */
export function fillJson(template: JsonTemplate, values: Readonly<Record<string, string>>): JsonTemplate {
  if (typeof template === 'string') return template.replace(PLACE, (_, name: string) => values[name] ?? '');
  if (typeof template !== 'object' || template === null) return template;
  if (Array.isArray(template)) return template.map((one: JsonTemplate) => fillJson(one, values));
  return Object.fromEntries(Object.entries(template).map(([name, one]) => [name, fillJson(one, values)]));
}

function encodedAround(template: string, values: PlaceValues): string {
  return template
    .split(PLACE)
    .map((piece, i) => percentEncoded(i % 2 === 0 ? piece : (values[piece] ?? '')))
    .join('');
}

function percentEncoded(value: string | Uint8Array): string {
  const octets = typeof value === 'string' ? Buffer.from(value, 'utf8') : value;
  return Array.from(octets, encodedOctet).join('');
}

function encodedOctet(octet: number): string {
  const char = String.fromCharCode(octet);
  return UNRESERVED.test(char) ? char : `%${octet.toString(16).toUpperCase().padStart(2, '0')}`;
}
