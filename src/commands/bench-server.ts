/** A server process for the bench: the whole line, or the floor: express, the form, one durable insert. Tells its port. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import bodyParser from 'body-parser';
import express, { type Express } from 'express';
import { realClock } from '../clock.ts';
import { randomId } from '../store/ids.ts';
import { createApp } from '../web/create-app.ts';
import { listen } from '../web/listen.ts';
import { benchScheme } from './bench-scheme.ts';
import { openDeskLineOf } from './open-desk-line.ts';

const folder = mkdtempSync(join(tmpdir(), 'bundline-bench-'));
const path = join(folder, 'bench.db');
const app = process.argv[2] === 'floor' ? floor() : await line();
const { port } = await listen(app, 0, '127.0.0.1');
process.send?.(port);
process.on('disconnect', () => process.exit());
process.on('SIGTERM', () => process.exit());
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));

function floor(): Express {
  const file = new Database(path);
  file.pragma('journal_mode = WAL');
  file.pragma('synchronous = FULL');
  file.exec('create table texts (id text primary key, phone text not null, body text not null)');
  const insert = file.prepare('insert into texts values (?, ?, ?)');
  const server = express();
  server.disable('x-powered-by').disable('etag');
  server.post('/sms', bodyParser.urlencoded({ extended: false }), (request, response) => {
    const { MessageSid, From, Body } = request.body as Record<string, string>;
    insert.run(MessageSid, From, Body);
    response.type('text/xml').send('<Response><Message>ok</Message></Response>');
  });
  return server;
}

async function line(): Promise<Express> {
  const quiet = {
    info: () => {},
    warn: () => {},
    error: (facts: object, message: string) => console.error(message, facts),
  };
  const opened = await openDeskLineOf(benchScheme(), {
    path,
    clock: realClock,
    makeId: randomId,
    log: quiet,
  });
  return createApp(opened, { signing: null });
}
