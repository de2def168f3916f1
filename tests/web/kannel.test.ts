/** The line against Debian's kannel: phone, fake carrier, bearerbox, smsbox, line, and all the way back. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { gatewayCarrier } from '../../src/carriers/gateway-carrier.ts';
import { clockFrom } from '../../src/clock.ts';
import { readGatewayText } from '../../src/gateway-config.ts';
import { queueText } from '../../src/store/outbox.ts';
import { readVoices } from '../../src/sweeps/read-voices.ts';
import { realTalk } from '../../src/sweeps/real-talk.ts';
import { sweepOutbox } from '../../src/sweeps/sweep-outbox.ts';
import { createApp } from '../../src/web/create-app.ts';
import { type Listening, listen } from '../../src/web/listen.ts';
import { octetForm, octetsIn } from '../../src/web/octet-form.ts';
import { fakeGateway, saying } from '../support/gateways.ts';
import { freePorts, KANNEL_MISSING, type KannelPorts, kannelConf, startKannel } from '../support/kannel.ts';
import { HOUR_MS, NOON_MS, newFolder, type TestLine, testLine } from '../support/test-line.ts';
import { ANN, BEN, CYN_AND_DAN, LINE, VALLEY } from '../support/valley-scheme.ts';

const EXAMPLE = readFileSync(
  fileURLToPath(new URL('../../scripts/demo/kannel-gateway.yaml', import.meta.url)),
  'utf8',
);

/** The test valley, with a grower who texts in French and one who texts in Bengali. */
const SCHEME = VALLEY.replace('languages: [en]', 'languages: [en, fr, bn]')
  .replace('name: Ann, lang: en', 'name: Ann, lang: fr')
  .replace('name: Ben, lang: en', 'name: Ben, lang: bn');

/** What the fake carrier was given for a phone: each part's octets are read in the charset that came with it. */
interface Given {
  readonly to: string | null;
  readonly from: string | null;
  readonly coding: string | null;
  readonly charset: string | null;
  readonly text: string;
  /** Octets before a part of a longer text: of how many parts it is which (3GPP TS 23.040, 9.2.3.24.1); empty for a whole one. */
  readonly head: Buffer;
  /** Where the carrier reports what became of it. */
  readonly reportUrl: string | null;
}

function givenIn(url: string): Given {
  const query = url.slice(url.indexOf('?') + 1);
  const form = octetForm(query);
  const octets = (name: string) => octetsIn(form, name) ?? Buffer.alloc(0);
  const field = (name: string) => octetsIn(form, name)?.toString('utf8') ?? null;
  const charset = field('charset');
  const text = new TextDecoder(charset ?? 'utf-8', { fatal: true }).decode(octets('text'));
  const told = { to: field('to'), from: field('from'), coding: field('coding'), charset, text };
  return { ...told, head: octets('udh'), reportUrl: field('dlr-url') };
}

/** Of which text it is a part, of how many, and which; the parts of one text are carried side by side and come in any order. */
function placeOf({ head }: Given) {
  const [reference = 0, count = 1, place = 1] = head.subarray(3, 6);
  return { reference, count, place };
}

/** Whole texts in the order of their last parts, put together by the parts' places; those that lack some are left out. */
function wholeTexts(parts: readonly Given[]): readonly Given[] {
  const whole: Given[] = [];
  let waiting: readonly Given[] = [];
  for (const part of parts) {
    const { reference, count } = placeOf(part);
    const isOf = (one: Given) => one.head.length > 0 && placeOf(one).reference === reference;
    const own = part.head.length === 0 ? [part] : [...waiting.filter(isOf), part];
    if (own.length < count) {
      waiting = [...waiting, part];
      continue;
    }
    const sorted = own.toSorted((a, b) => placeOf(a).place - placeOf(b).place);
    expect(sorted.map((one) => placeOf(one).place)).toEqual(sorted.map((_, index) => index + 1));
    whole.push({ ...part, text: sorted.map(({ text }) => text).join('') });
    waiting = waiting.filter((one) => !isOf(one));
  }
  return whole;
}

const reason = KANNEL_MISSING.length > 0 ? ` (SKIPPED: not installed: ${KANNEL_MISSING.join(', ')})` : '';

describe.skipIf(KANNEL_MISSING.length > 0)(`with kannel between${reason}`, () => {
  const undos: (() => Promise<void> | void)[] = [];
  const afterwards = (undo: () => Promise<void> | void) => void undos.unshift(undo);
  let ports: KannelPorts;
  let line: TestLine;
  let carrier: Awaited<ReturnType<typeof fakeGateway>>;

  beforeAll(async () => {
    carrier = await fakeGateway(saying(202, '0: Accepted for delivery'), afterwards);
    ports = await freePorts();
    const folder = newFolder(afterwards);
    const app = await startLine(ports.sendsms);
    const groups = linesOfKannel(EXAMPLE).replaceAll('127.0.0.1:8080', `127.0.0.1:${app.port}`);
    await startKannel(folder, kannelConf(ports, carrier.url, groups), ports, afterwards);
  }, 60_000);

  afterAll(async () => {
    for (const undo of undos) await undo();
  });

  /** The line on a free port, with the example's settings for these ports. */
  async function startLine(sendsms: number): Promise<Listening> {
    const own = await freePorts();
    const text = EXAMPLE.replaceAll('127.0.0.1:13013', `127.0.0.1:${sendsms}`).replaceAll(
      '127.0.0.1%3A8080',
      `127.0.0.1%3A${own.admin}`,
    );
    const read = readGatewayText(text);
    if (!read.ok) throw new Error(read.mistakes.join('\n'));
    // By day, whenever the test runs: at night nothing goes out.
    const parts = { talk: realTalk, voices: readVoices(), clock: clockFrom(NOON_MS), schemeText: SCHEME };
    line = await testLine(afterwards, { ...parts, carrier: gatewayCarrier(read.gateway.sending) });
    const app = await listen(
      createApp(line, { signing: null, gateway: read.gateway }),
      own.admin,
      '127.0.0.1',
    );
    afterwards(() => app.stop());
    return app;
  }

  /** A phone's text arrives at bearerbox as the carrier would bring it. */
  async function textFrom(from: string, text: Buffer, coding: string, charset: string): Promise<void> {
    const octets = Array.from(text, (octet) => `%${octet.toString(16).padStart(2, '0')}`).join('');
    const query = new URLSearchParams({ username: 'carrier', password: 'carrier-secret', from, to: LINE });
    const response = await fetch(
      `http://127.0.0.1:${ports.carrier}/?${query.toString()}&coding=${coding}&charset=${charset}&text=${octets}`,
    );
    expect(await response.text()).toContain('Sent');
  }

  async function sendOut(id: string, phone: string, text: string): Promise<void> {
    const nowMs = line.clock.nowMs();
    const times = { notBeforeMs: nowMs, expiresMs: nowMs + HOUR_MS };
    await queueText(line.db, { id, key: id, phone, text, ...times }, nowMs, null);
    expect(await sweepOutbox(line)).toBe(1);
  }

  /** The newest that the carrier was given for a phone, once there are so many. */
  function given(to: string, count: number): Promise<Given> {
    return vi.waitFor(
      () => {
        const all = wholeTexts(carrier.got.map(({ url }) => givenIn(url)).filter((one) => one.to === to));
        expect(all.length).toBe(count);
        return all[count - 1] as Given;
      },
      { timeout: 20_000, interval: 50 },
    );
  }

  const answerOf = async (phone: string) =>
    (await line.db.selectFrom('texts_in').select(['body', 'answer']).where('phone', '=', phone).execute())[0];

  test('a text with é comes in, is understood, and its answer goes out to the phone', async () => {
    await textFrom(ANN, Buffer.from('labouré la 1', 'latin1'), '0', 'ISO-8859-1');
    const out = await given(ANN, 1);
    const kept = await answerOf(ANN);
    expect(kept?.body).toBe('labouré la 1');
    expect(out.text).toBe(kept?.answer);
    expect(out.text).toContain('é');
    expect(out).toMatchObject({ coding: '0', charset: 'UTF-8' });
  });

  test('a text in Bengali comes in as UCS-2, is understood, and is answered in UCS-2', async () => {
    const words = '১ নম্বর জমি চাষ করেছি';
    await textFrom(BEN, Buffer.from(words, 'utf16le').swap16(), '2', 'UTF-16BE');
    const out = await given(BEN, 1);
    const kept = await answerOf(BEN);
    expect(kept?.body).toBe(words);
    expect(out.text).toBe(kept?.answer);
    expect(out.text).toMatch(/\p{Script=Bengali}/u);
    expect(out).toMatchObject({ coding: '2', charset: 'UTF-16BE' });
  });

  test('a text with é goes out through the outbox, and the report of its arrival comes back', async () => {
    await sendOut('out-1', CYN_AND_DAN, "Le créneau de l'eau");
    const out = await given(CYN_AND_DAN, 1);
    expect(out).toMatchObject({ text: "Le créneau de l'eau", coding: '0', charset: 'UTF-8', from: LINE });
    await stateOf('out-1', { receipt: 2, state: 'handed' });
    await reportArrival(out);
    await stateOf('out-1', { receipt: 3, state: 'delivered' });
  });

  test('a text in Bengali goes out as UCS-2 and arrives whole', async () => {
    const words = 'আগামীকাল ১ নম্বর জমি সমান করুন';
    await sendOut('out-2', CYN_AND_DAN, words);
    expect(await given(CYN_AND_DAN, 2)).toMatchObject({ text: words, coding: '2', charset: 'UTF-16BE' });
  });

  test('a wrong password is told as wrong settings, and the text waits', async () => {
    const settings = EXAMPLE.replaceAll('127.0.0.1:13013', `127.0.0.1:${ports.sendsms}`);
    const read = readGatewayText(settings.replace('password: change-me', 'password: forgotten'));
    if (!read.ok) throw new Error(read.mistakes.join('\n'));
    const text = { to: ANN, text: 'x', id: 'x', key: 'x', attempt: 1, doubtful: false };
    const handing = await gatewayCarrier(read.gateway.sending).send({
      ...text,
      queuedMs: 0,
      validForMs: HOUR_MS,
    });
    expect(handing).toMatchObject({ kind: 'retry', alarm: true, why: 'HTTP 403' });
  });

  /** The carrier reports that the phone has the text: it calls the address that came with it, the state in its place. */
  async function reportArrival({ reportUrl }: Given): Promise<void> {
    const response = await fetch(`${reportUrl?.replaceAll('%d', '1')}&to=${encodeURIComponent(CYN_AND_DAN)}`);
    expect(await response.text()).toContain('Sent');
  }

  async function stateOf(id: string, state: object): Promise<void> {
    const row = () =>
      line.db.selectFrom('outbox').select(['state', 'receipt']).where('id', '=', id).execute();
    await vi.waitFor(async () => expect(await row()).toEqual([state]), { timeout: 20_000, interval: 50 });
  }
});

/** The part of the example's head that belongs into kannel.conf. */
function linesOfKannel(example: string): string {
  return example
    .split('\n')
    .flatMap((row) => /^# {3}(.*)$/.exec(row)?.[1] ?? (/^#$/.test(row) ? '' : []))
    .join('\n');
}
