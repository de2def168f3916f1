/** A process for the bench: a carrier that takes every text at once. Tells its port. */
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';

let taken = 0;

const server = createServer((request, response) => {
  request.resume();
  request.once('end', () => {
    taken += 1;
    response.writeHead(201, { 'content-type': 'application/json' });
    response.end(JSON.stringify({ sid: `SM${taken}`, num_segments: '1' }));
  });
});
server.listen(0, '127.0.0.1', () => process.send?.((server.address() as AddressInfo).port));
process.on('disconnect', () => process.exit());
process.on('SIGTERM', () => process.exit());
