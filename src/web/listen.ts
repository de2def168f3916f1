/** Starts and stops the HTTP server. */
import { createServer, type RequestListener, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';

/** How long a stopping server waits for requests under way. */
const DRAIN_MS = 10_000;

/** A server that listens. */
export interface Listening {
  readonly port: number;
  /** Takes no new connections, lets requests under way finish, and resolves when all are closed. */
  stop(): Promise<void>;
}

/**
 * Listens on the port (0 takes a free one) of one address, or of all when `host` is null; rejects with the system's
 * error, code EADDRINUSE when the port is taken.
 */
export function listen(handler: RequestListener, port: number, host: string | null): Promise<Listening> {
  const server = createServer(handler);
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen({ port, ...(host === null ? {} : { host }) }, () => {
      server.off('error', reject);
      resolve({ port: (server.address() as AddressInfo).port, stop: () => stop(server) });
    });
  });
}

function stop(server: Server): Promise<void> {
  return new Promise((resolve, reject) => {
    server.close((error) => (error === undefined ? resolve() : reject(error)));
    server.closeIdleConnections();
    setTimeout(() => server.closeAllConnections(), DRAIN_MS).unref();
  });
}
