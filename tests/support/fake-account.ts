/** A carrier's account and messages on loopback, with the faults that a check must find. */
import { listen } from '../../src/web/listen.ts';

export interface CarrierFaults {
  /** State of the account. */
  readonly account?: string;
  /** The states that a sent text goes through, one a look. */
  readonly states?: readonly string[];
  readonly errorCode?: number;
  /** Refuses every text with this code. */
  readonly refuses?: number;
}

/** Serves account AC1 with the token "secret" until the hook stops it; tells the texts that it took. */
export async function fakeAccount(
  afterwards: (undo: () => Promise<void>) => void,
  faults: CarrierFaults = {},
) {
  const texts: URLSearchParams[] = [];
  let looks = 0;
  const login = `Basic ${Buffer.from('AC1:secret').toString('base64')}`;
  const states = faults.states ?? ['queued', 'sent', 'delivered'];
  const answerTo = (method: string, path: string, body: string): [number, object] => {
    if (path === '/2010-04-01/Accounts/AC1.json') return [200, { status: faults.account ?? 'active' }];
    if (path === '/2010-04-01/Accounts/AC1/Messages.json' && method === 'POST') {
      if (faults.refuses !== undefined) return [400, { code: faults.refuses }];
      texts.push(new URLSearchParams(body));
      return [201, { sid: 'SM1', status: 'queued' }];
    }
    if (path !== '/2010-04-01/Accounts/AC1/Messages/SM1.json') return [404, { code: 20404 }];
    looks += 1;
    const status = states[Math.min(looks, states.length) - 1];
    return [200, { sid: 'SM1', status, error_code: faults.errorCode ?? null }];
  };
  const listening = await listen(
    (request, response) => {
      let body = '';
      request.on('data', (chunk) => (body += String(chunk)));
      request.on('end', () => {
        const isOurs = request.headers.authorization === login;
        const path = request.url ?? '';
        const isAccount = path.includes('/AC1');
        const [status, json] = isOurs
          ? answerTo(request.method ?? '', path, body)
          : [isAccount ? 401 : 404, { code: isAccount ? 20003 : 20404 }];
        response.statusCode = status;
        response.end(JSON.stringify(json));
      });
    },
    0,
    '127.0.0.1',
  );
  afterwards(() => listening.stop());
  return { baseUrl: `http://127.0.0.1:${listening.port}`, texts };
}
