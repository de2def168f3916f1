import fc from 'fast-check';
import twilio from 'twilio';
import { expect, test } from 'vitest';
import { twiml } from '../../src/web/twiml.ts';

/** What a reader of XML gets: the message's text, or null for none. */
function read(xml: string): string | null {
  const message = /<Message>(.*)<\/Message>/s.exec(xml)?.[1];
  if (message === undefined) return null;
  const signs: Record<string, string> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };
  return message
    .replace(/&#x([0-9a-f]+);/gi, (_, hex: string) => String.fromCodePoint(Number.parseInt(hex, 16)))
    .replace(/&(\w+);/g, (whole, name: string) => signs[name] ?? whole);
}

test('the reference package writes the same content', () => {
  fc.assert(
    fc.property(
      fc.string({
        unit: fc.oneof(
          fc.constantFrom('&', '<', '>', '"', "'", ']', '\n'),
          fc.string({ unit: 'grapheme', minLength: 1, maxLength: 1 }),
        ),
      }),
      (text) => {
        fc.pre(text.trim() !== '' && !/[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/u.test(text));
        const response = new twilio.twiml.MessagingResponse();
        response.message(text);
        expect(read(twiml(text))).toBe(text);
        expect(read(response.toString())).toBe(text);
      },
    ),
    { numRuns: 500 },
  );
});

test.each(['&lt;b&gt; & &amp;', '</Message><Message>', '<!-- \'"]]> -->'])(
  '%j is text, not markup',
  (text) => {
    expect(read(twiml(text))).toBe(text);
    expect(twiml(text).split('<Message>')).toHaveLength(2);
  },
);

test('nothing to say is an empty Response', () => {
  const empty = '<?xml version="1.0" encoding="UTF-8"?><Response/>';
  expect(new twilio.twiml.MessagingResponse().toString()).toBe(empty);
  expect(twiml(null)).toBe(empty);
  expect(twiml('')).toBe(empty);
  expect(twiml(' \u0001\n')).toBe(empty);
});

test('what XML cannot hold is left out, whatever the text', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary' }), (text) => {
      const forbidden = /[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/u;
      expect(forbidden.test(twiml(text))).toBe(false);
      expect(twiml(text).match(/[<>]/g)?.length ?? 0).toBeLessThanOrEqual(10);
    }),
  );
  expect(read(twiml('a\ud800b\u0000c\ufffed'))).toBe('abcd');
});
