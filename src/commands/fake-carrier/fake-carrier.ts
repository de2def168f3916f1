/**
 * A carrier with the Twilio-compatible interface, on loopback, that misbehaves as it is told. What it has accepted, and
 * only that, is in `kept`: a text that stands there twice has reached a phone twice.
 */
import type { IncomingMessage, ServerResponse } from 'node:http';
import { measure } from '../../say/parts.ts';
import { listen } from '../../web/listen.ts';
import { signForm } from '../../web/signature.ts';
import { answerJson, isAuthorized, type Listed, listedPage } from './list.ts';
import { type ReceiptOut, type Reporting, type Sign, sendReceipt } from './receipts.ts';

export const SID = 'AC0123456789abcdef0123456789abcdef';
export const TOKEN = 'secret';

/** A refusal as the carrier words it. */
export interface Refusal {
  readonly status: number;
  readonly code?: number;
  readonly retryAfter?: string;
}

/** What becomes of a request: "before" and "after" tell whether the text is accepted all the same. */
export type Deed = 'accept' | 'no-json' | `${'fault' | 'hang' | 'reset'}-${'before' | 'after'}` | Refusal;

/** A text as it was posted. */
export interface Posted {
  readonly form: Readonly<Record<string, string>>;
  readonly to: string;
  readonly body: string;
  /** How often these words were posted to this number, this time included. */
  readonly time: number;
}

/** A text that was accepted. */
export interface Kept extends Posted, Listed {}

/** Receipts of a text: before the answer to its hand-over, and when it is told to. */
export interface Reports {
  readonly early?: readonly ReceiptOut[];
  readonly later?: readonly ReceiptOut[];
}

/** How it signs and counts: tests give it somebody else's ways, so that the line is not checked by itself. */
export interface Tools {
  readonly sign: Sign;
  readonly countParts: (text: string) => number;
}

const OWN_TOOLS: Tools = { sign: signForm, countParts: (text) => measure(text).parts };

export interface FakeCarrier {
  readonly url: string;
  readonly kept: readonly Kept[];
  readonly posts: readonly Posted[];
  /** Look-ups that came in, each page counted. */
  readonly lists: readonly URL[];
  /** What may be changed at any time. */
  readonly ways: Ways;
  /** Sends the receipts that wait, in the order that `mix` gives them; returns the statuses that came back. */
  deliver(mix?: (waiting: readonly Waiting[]) => readonly Waiting[]): Promise<readonly number[]>;
  /** Sends one receipt. */
  tell(text: Kept, receipt: ReceiptOut): Promise<number>;
}

/** A receipt that waits for its time. */
export interface Waiting {
  readonly text: Kept;
  readonly receipt: ReceiptOut;
}

export interface Ways {
  /** The password that it accepts. */
  token: string;
  post: (posted: Posted) => Deed;
  list: (count: number, url: URL) => Deed;
  reports: (text: Kept) => Reports;
  nowMs: () => number;
  /** Texts on a page, however many are asked for. */
  mostOnPage: number;
  /** Where the line really listens; the address that it gave is still what is signed. */
  line: { readonly publicUrl: string; readonly url: string } | null;
}

/** Starts one that accepts everything and reports nothing until it is told otherwise. */
export async function fakeCarrier(
  afterwards: (undo: () => Promise<void> | void) => void,
  ways: Partial<Ways> = {},
  tools: Tools = OWN_TOOLS,
): Promise<FakeCarrier> {
  const state: State = {
    ways: { ...QUIET, ...ways },
    tools,
    kept: [],
    posts: [],
    lists: [],
    waiting: [],
  };
  const open = new Set<ServerResponse>();
  const listening = await listen(
    (request, response) => {
      open.add(response.on('close', () => open.delete(response)));
      void handle(state, request, response);
    },
    0,
    '127.0.0.1',
  );
  afterwards(async () => {
    for (const response of open) response.destroy();
    await listening.stop();
  });
  const { kept, posts, lists } = state;
  const tell = (text: Kept, receipt: ReceiptOut) => sendReceipt(reporting(state), text, receipt);
  const deliver: FakeCarrier['deliver'] = async (mix = (waiting) => waiting) => {
    const statuses: number[] = [];
    for (const { text, receipt } of mix(state.waiting.splice(0))) statuses.push(await tell(text, receipt));
    return statuses;
  };
  const url = `http://127.0.0.1:${listening.port}`;
  return { url, kept, posts, lists, ways: state.ways, deliver, tell };
}

const QUIET: Ways = {
  token: TOKEN,
  post: () => 'accept',
  list: () => 'accept',
  reports: () => ({}),
  nowMs: () => Date.now(),
  mostOnPage: 1000,
  line: null,
};

interface State {
  readonly ways: Ways;
  readonly tools: Tools;
  readonly kept: Kept[];
  readonly posts: Posted[];
  readonly lists: URL[];
  readonly waiting: Waiting[];
}

const reporting = ({ ways, tools }: State): Reporting => ({
  token: ways.token,
  accountSid: SID,
  line: ways.line,
  sign: tools.sign,
});

async function handle(state: State, request: IncomingMessage, response: ServerResponse): Promise<void> {
  const url = new URL(request.url ?? '/', 'http://carrier.example.org');
  if (url.pathname !== `/2010-04-01/Accounts/${SID}/Messages.json`)
    return answerJson(response, 404, { code: 20404, message: 'not found', status: 404 });
  const body = await bodyOf(request);
  if (!isAuthorized(request, SID, state.ways.token)) return refuse(response, { status: 401, code: 20003 });
  if (request.method === 'POST') return takePost(state, new URLSearchParams(body), request, response);
  state.lists.push(url);
  const deed = state.ways.list(state.lists.length, url);
  const page = () => answerJson(response, 200, listedPage(state.kept, url, state.ways.mostOnPage));
  return doDeed(deed, request, response, page);
}

async function bodyOf(request: IncomingMessage): Promise<string> {
  let body = '';
  for await (const chunk of request.setEncoding('utf8')) body += String(chunk);
  return body;
}

async function takePost(
  state: State,
  fields: URLSearchParams,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  const form = Object.fromEntries(fields);
  const fault = formFault(form);
  if (fault !== null) return refuse(response, { status: 400, code: fault });
  const [to, body] = [form['To'] ?? '', form['Body'] ?? ''];
  const before = state.posts.filter((one) => one.to === to && one.body === body).length;
  const posted: Posted = { form, to, body, time: before + 1 };
  state.posts.push(posted);
  const deed = state.ways.post(posted);
  const taken = typeof deed === 'string' && !deed.endsWith('-before');
  const text = taken ? await keep(state, posted) : null;
  return doDeed(deed, request, response, () => answerJson(response, 201, text));
}

/** The codes are those of the public list; which fields are needed, of the public reference of the interface. */
function formFault(form: Readonly<Record<string, string>>): number | null {
  const validity = Number(form['ValidityPeriod'] ?? 36_000);
  if (!form['To']) return 21604;
  if (!form['From'] && !form['MessagingServiceSid']) return 21603;
  if (!form['Body']) return 21602;
  return Number.isInteger(validity) && validity >= 1 && validity <= 36_000 ? null : 21626;
}

async function keep(state: State, posted: Posted): Promise<Kept> {
  const text: Kept = {
    ...posted,
    sid: `SM${String(state.kept.length + 1).padStart(32, '0')}`,
    direction: 'outbound-api',
    num_segments: String(state.tools.countParts(posted.body)),
    date_created: new Date(state.ways.nowMs()).toUTCString(),
  };
  state.kept.push(text);
  const { early = [], later = [] } = state.ways.reports(text);
  for (const receipt of early) await sendReceipt(reporting(state), text, receipt);
  state.waiting.push(...later.map((receipt) => ({ text, receipt })));
  return text;
}

/** What hangs is never answered. */
function doDeed(deed: Deed, request: IncomingMessage, response: ServerResponse, answer: () => void): void {
  if (typeof deed !== 'string') refuse(response, deed);
  else if (deed === 'accept') answer();
  else if (deed === 'no-json')
    response.writeHead(201, { 'content-type': 'text/html' }).end('<html>Thank you</html>');
  else if (deed.startsWith('fault')) refuse(response, { status: 500, code: 20500 });
  else if (deed.startsWith('reset')) request.socket.resetAndDestroy();
}

function refuse(response: ServerResponse, { status, code, retryAfter }: Refusal): void {
  if (retryAfter !== undefined) response.setHeader('Retry-After', retryAfter);
  answerJson(response, status, { code: code ?? null, message: 'refused', status });
}
