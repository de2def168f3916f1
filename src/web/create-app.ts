/** The HTTP side of the line: texts in, health, and short plain answers to everything else. */
import bodyParser from 'body-parser';
import express, { type ErrorRequestHandler, type Express } from 'express';
import { sql } from 'kysely';
import { faultNote } from '../sweeps/fault-note.ts';
import type { Line } from '../sweeps/line.ts';
import { keepRawBody } from './form.ts';
import { onlyThisMachine, requireSecret } from './gateway-guard.ts';
import { type GatewayReports, gatewayReportRoute } from './gateway-report-route.ts';
import { type GatewayReceiving, gatewayRoute } from './gateway-route.ts';
import { receiptRoute } from './receipt-route.ts';
import { requireSignature, type Signing, smsRoute } from './sms-route.ts';
import { COMMON_SHAPE, type UssdShape } from './ussd/shape.ts';
import { requireBodyType, requireUssdSecret, ussdRoute } from './ussd/ussd-route.ts';

/** A text of 1,600 letters of four bytes is 19 kB when encoded; the other fields take one or two. */
const BODY_LIMIT = '32kb';
/** A carrier sends 20 to 40 fields. */
const MOST_FIELDS = 100;

/** Where a carrier reports what became of texts. */
export const RECEIPT_PATH = '/sms/status';

/** The address of receipts, below the line's public one: `receiptUrl('https://a.example/b/')` is "https://a.example/b/sms/status". */
export function receiptUrl(publicUrl: string): string {
  return publicUrl.replace(/\/+$/, '') + RECEIPT_PATH;
}

/** Where a plain HTTP gateway brings texts, and reports what became of them. */
export const GATEWAY_PATH = '/gateway';

/** How a plain HTTP gateway brings texts and reports; `reports` null when it reports nothing. */
export interface GatewayIn {
  readonly receiving: GatewayReceiving;
  readonly reports: GatewayReports | null;
}

/** Who may bring texts and screens, and how they look on the wire. */
export interface Doors {
  /** Null accepts unsigned requests from this machine (the desk). */
  readonly signing: Signing | null;
  /** Null or left out: there is none. */
  readonly gateway?: GatewayIn | null;
  /** The common form when left out. */
  readonly ussd?: UssdShape;
}

/** The app of one line. */
export function createApp(line: Line, { signing, gateway = null, ussd = COMMON_SHAPE }: Doors): Express {
  const app = express();
  app.disable('x-powered-by').disable('etag');
  const form = bodyParser.urlencoded({ extended: false, limit: BODY_LIMIT, parameterLimit: MOST_FIELDS });
  const json = bodyParser.json({
    limit: BODY_LIMIT,
    verify: (request, _response, body) => keepRawBody(request, body),
  });
  const signed = signing === null ? onlyThisMachine : requireSignature(signing);
  app.post('/sms', form, json, signed, smsRoute(line));
  app.post(RECEIPT_PATH, form, json, signed, receiptRoute(line));
  // Without a signature any link that somebody opens on this machine would be a text.
  if (signing !== null) app.get('/sms', signed, smsRoute(line));
  if (gateway !== null) addGateway(app, line, gateway);
  const [guard, screens] = [requireUssdSecret(ussd), ussdRoute(line, ussd)];
  const fields = ussd.body === 'form' ? form : bodyParser.json({ limit: BODY_LIMIT });
  app.post('/ussd', guard, requireBodyType(ussd), fields, screens);
  app.get('/ussd', guard, screens);
  app.get('/healthz', async (_request, response) => {
    await sql`select 1`.execute(line.db);
    response.type('text/plain').send('ok\n');
  });
  app.use((_request, response) => {
    response
      .status(404)
      .type('text/plain')
      .send('Nothing here. Texts go to POST /sms, numbered screens to POST /ussd.\n');
  });
  app.use(plainFaults(line));
  return app;
}

/** A look with HEAD is no text, though Express would take it for a GET. */
function addGateway(app: Express, line: Line, { receiving, reports }: GatewayIn): void {
  const octets = bodyParser.raw({ type: 'application/x-www-form-urlencoded', limit: BODY_LIMIT });
  const guard = requireSecret(receiving.secret);
  app.head([GATEWAY_PATH, `${GATEWAY_PATH}/report`], (_request, response) => {
    response.status(405).end();
  });
  const take = gatewayRoute(line, receiving);
  app.route(GATEWAY_PATH).get(guard, take).post(octets, guard, take);
  if (reports === null) return;
  const report = gatewayReportRoute(line, reports);
  app.route(`${GATEWAY_PATH}/report`).get(guard, report).post(octets, guard, report);
}

/** Faults of a request keep their status and say so shortly; ours are logged, and answered without detail. */
function plainFaults(line: Line): ErrorRequestHandler {
  return (error: unknown, _request, response, _next) => {
    const status = statusOf(error);
    if (status >= 500) line.log.error({ fault: faultNote(error) }, 'a request failed');
    if (response.headersSent) {
      response.destroy();
      return;
    }
    response
      .status(status)
      .type('text/plain')
      .send(`${SHORT_TEXTS[status] ?? 'The request cannot be read.'}\n`);
  };
}

const SHORT_TEXTS: Readonly<Record<number, string>> = {
  413: 'The request is too long.',
  415: 'The request must be a form.',
  503: 'Something went wrong on our side. Nothing was kept; please send it again.',
};

function statusOf(error: unknown): number {
  const status = (error as { status?: unknown } | null)?.status;
  return typeof status === 'number' && status >= 400 && status < 500 ? status : 503;
}
