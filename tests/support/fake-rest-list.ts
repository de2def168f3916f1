/** A carrier's list of messages on loopback: pages, and a login that it checks. */
import type { ListAccount } from '../../src/carriers/rest-list.ts';
import { listen } from '../../src/web/listen.ts';
import { ANN, LINE } from './valley-scheme.ts';

/** A message as listed; `changed` replaces fields. */
export function listedText(
  sid: string,
  sentMs: number,
  changed: Readonly<Record<string, unknown>> = {},
): object {
  const date_sent = new Date(sentMs).toUTCString();
  const text = { sid, from: ANN, to: LINE, body: 'hello', direction: 'inbound', status: 'received' };
  return { ...text, date_sent, date_created: date_sent, num_segments: '1', ...changed };
}

interface FakeList {
  readonly account: ListAccount;
  /** The paths that were asked for. */
  readonly asked: readonly string[];
}

/** Serves the texts, newest changes included, until the hook stops it; `next` says where the next page lies. */
export async function fakeRestList(
  afterwards: (undo: () => Promise<void>) => void,
  {
    texts,
    pageSize = 100,
    next,
  }: {
    readonly texts: readonly unknown[];
    readonly pageSize?: number;
    readonly next?: (url: string) => string;
  },
): Promise<FakeList> {
  const asked: string[] = [];
  const login = `Basic ${Buffer.from('AC1:secret').toString('base64')}`;
  const listening = await listen(
    (request, response) => {
      const url = request.url ?? '';
      asked.push(url);
      response.setHeader('content-type', 'application/json');
      const isOurs = request.headers.authorization === login;
      response.statusCode = isOurs ? 200 : 401;
      const at = Number(new URL(url, 'http://localhost').searchParams.get('At') ?? '0');
      const following =
        at + pageSize < texts.length ? `/2010-04-01/Accounts/AC1/Messages.json?At=${at + pageSize}` : null;
      const page = { messages: texts.slice(at, at + pageSize), next_page_uri: next ? next(url) : following };
      response.end(JSON.stringify(isOurs ? page : { code: 20003, message: 'Authenticate' }));
    },
    0,
    '127.0.0.1',
  );
  afterwards(() => listening.stop());
  const baseUrl = `http://127.0.0.1:${listening.port}`;
  return { account: { baseUrl, accountSid: 'AC1', token: 'secret', from: LINE }, asked };
}
