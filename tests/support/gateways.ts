/** Small gateways: the settings of one, and a fake of the other side. */
import type { IncomingMessage, ServerResponse } from 'node:http';
import { type Gateway, readGatewayText } from '../../src/gateway-config.ts';
import { listen } from '../../src/web/listen.ts';

/** A request as the fake got it. */
export interface Got {
  readonly method: string;
  readonly url: string;
  readonly type: string;
  readonly body: string;
}

/** What the fake does with a request. */
export type Manner = (response: ServerResponse, request: IncomingMessage) => void;

/** Answers with this status and text. */
export function saying(status: number, text = '', headers: Readonly<Record<string, string>> = {}): Manner {
  return (response) => void response.writeHead(status, headers).end(text);
}

/** A gateway on a free port that does as it is told and keeps what it got. */
export async function fakeGateway(manner: Manner, afterwards: (undo: () => Promise<void>) => void) {
  const got: Got[] = [];
  const handler = (request: IncomingMessage, response: ServerResponse) => {
    const pieces: Buffer[] = [];
    request.on('data', (piece: Buffer) => pieces.push(piece));
    request.on('end', () => {
      const { method = '', url = '', headers } = request;
      const body = Buffer.concat(pieces).toString('latin1');
      got.push({ method, url, type: headers['content-type'] ?? '', body });
      manner(response, request);
    });
  };
  const listening = await listen(handler, 0, '127.0.0.1');
  afterwards(() => listening.stop());
  return { url: `http://127.0.0.1:${listening.port}`, got };
}

/** Sections of a gateway's file, put over a plain one. */
export interface Sections {
  readonly send?: object;
  readonly receive?: object;
  readonly report?: object | null;
}

const RECEIVE = {
  fields: { from: 'from', text: 'text', id: 'id', time: 'time', coding: 'coding', charset: 'charset' },
};
const REPORT = { id: 'id', status: 'status', words: { '1': 'delivered', '2': 'failed', '8': 'sent' } };

/** The gateway of a file with these sections; throws with the file's mistakes. */
export function gatewayWith({ send = {}, receive = {}, report = REPORT }: Sections): Gateway {
  const sending = { url: 'http://127.0.0.1:9/?to={to}&text={text}', ...send };
  const file = { send: sending, receive: { ...RECEIVE, ...receive }, report };
  const read = readGatewayText(JSON.stringify(file));
  if (!read.ok) throw new Error(read.mistakes.join('\n'));
  return read.gateway;
}
