/** Settings of a plain HTTP gateway, from one YAML or JSON file. Mistakes are listed by place; no value is ever shown: it may be a secret. */
import { readFileSync } from 'node:fs';
import { parseDocument } from 'yaml';
import type { GatewaySending } from './carriers/gateway-carrier.ts';
import { whyUnread } from './file-unread.ts';
import { inPlainWords, mistakesOf, unreadLine } from './gateway-mistakes.ts';
import { type GatewayFile, gatewaySchema } from './gateway-shape.ts';
import type { GatewayReports } from './web/gateway-report-route.ts';
import type { GatewayReceiving } from './web/gateway-route.ts';

/** A gateway in both directions; `reports` null when it reports nothing. */
export interface Gateway {
  readonly sending: GatewaySending;
  readonly receiving: GatewayReceiving;
  readonly reports: GatewayReports | null;
}

export type GatewayReading =
  | { readonly ok: true; readonly gateway: Gateway }
  | { readonly ok: false; readonly mistakes: readonly string[] };

/** Reads the file at this path. */
export function readGateway(path: string): GatewayReading {
  try {
    return readGatewayText(readFileSync(path, 'utf8'));
  } catch (error) {
    return { ok: false, mistakes: [whyUnread(error)] };
  }
}

/** Reads the file's text. */
export function readGatewayText(text: string): GatewayReading {
  const document = parseDocument(text);
  if (document.errors.length > 0) return { ok: false, mistakes: document.errors.map(unreadLine) };
  const data = dataOf(document);
  const read = gatewaySchema.safeParse(data, { error: inPlainWords });
  if (read.success) return { ok: true, gateway: gatewayOf(read.data) };
  return { ok: false, mistakes: read.error.issues.flatMap((issue) => mistakesOf(issue, data)) };
}

/** Null for aliases that name nothing, or very many. */
function dataOf(document: ReturnType<typeof parseDocument>): unknown {
  try {
    return document.toJS({ maxAliasCount: 20 });
  } catch {
    return null;
  }
}

function gatewayOf({ send, receive, report }: GatewayFile): Gateway {
  const { format, fields, ...rest } = send;
  const { gsm, ucs2 } = send;
  const body = format === 'form' ? { format, fields: formFields(fields) } : { format, fields };
  const { secret, answer, ucs2Codings, ...received } = receive;
  return {
    sending: { ...rest, body },
    receiving: {
      ...received,
      secret: secretOf(secret),
      ucs2Codings: ucs2Codings ?? [ucs2.coding],
      answer: { ...answer, gsm, ucs2 },
    },
    reports: report,
  };
}

/** Forms have texts only, which the schema has checked. */
function formFields(fields: GatewayFile['send']['fields']): Readonly<Record<string, string>> {
  return Object.fromEntries(Object.entries(fields).map(([name, value]) => [name, String(value)]));
}

function secretOf(secret: GatewayFile['receive']['secret']): GatewayReceiving['secret'] {
  if (secret === null) return null;
  const { field, header, value } = secret;
  return { place: header === null ? 'field' : 'header', name: header ?? field ?? '', value };
}
