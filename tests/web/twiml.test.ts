import { DOMParser, onWarningStopParsing } from '@xmldom/xmldom';
import fc from 'fast-check';
import twilio from 'twilio';
import { expect, test } from 'vitest';
import { twiml } from '../../src/web/twiml.ts';

/** What XML 1.0 (2.2, "Char") does not allow: control characters, halves of pairs, two others. DEL and C1 controls but NEL go too. */
const FORBIDDEN = /[^\P{Cc}\t\n\r\u0085]|[\p{Cs}\ufffe\uffff]/gu;

/** What the parser lets pass, though XML 1.0 does not (2.2 "Char", 2.4 "CharData"). */
const NOT_WELL_FORMED = new RegExp(
  `${FORBIDDEN.source}|\\]\\]>|&(?!(?:amp|lt|gt|quot|apos|#x[0-9A-F]+);)`,
  'u',
);

/**
 * What a reader of XML gets from the octets: the message's text, or null for none. Whatever the parser complains about, and anything
 * beside one Response with at most one Message of text alone, throws.
 */
function read(xml: string): string | null {
  if (NOT_WELL_FORMED.test(xml)) throw new Error('not well formed');
  const arrived = Buffer.from(xml, 'utf8').toString('utf8');
  const parser = new DOMParser({ onError: onWarningStopParsing });
  const root = parser.parseFromString(arrived, 'text/xml').documentElement;
  if (root?.tagName !== 'Response' || root.attributes.length > 0) throw new Error('no plain Response');
  const [message, ...others] = Array.from(root.childNodes);
  if (message === undefined) return null;
  if (message.nodeName !== 'Message' || others.length > 0) throw new Error('more than a Message');
  const inside = Array.from(message.childNodes);
  if (inside.some((node) => node.nodeType !== node.TEXT_NODE)) throw new Error('more than text');
  return message.textContent;
}

const shown = (text: string) => {
  const allowed = text.replace(FORBIDDEN, '');
  return allowed.trim() === '' ? null : allowed;
};

/** Signs of XML, pieces of markup, line ends of every kind, what XML forbids, halves of pairs, pictures, and anything. */
const piece = fc.oneof(
  fc.constantFrom('&', '<', '>', '"', "'", ']', ']]>', '<![CDATA[', '&amp;', '&#0;', '&#xD;', '<!--', '-->'),
  fc.constantFrom(
    '</Message>',
    '<Message>',
    '<?xml version="1.1"?>',
    '<!DOCTYPE r [<!ENTITY a "b">]>',
    '&a;',
  ),
  fc.constantFrom('\n', '\r', '\r\n', '\t', ' ', '\u0085', '\u2028', '\u00a0', '\ufeff'),
  fc.integer({ min: 0, max: 0x9f }).map((code) => String.fromCharCode(code)),
  fc.constantFrom(
    '\ud83d',
    '\ude00',
    '\ud800',
    '\udfff',
    '\ufffe',
    '\uffff',
    '\u{1ffff}',
    '😀',
    '👩🏽‍🌾',
    'রো',
  ),
  fc.string({ unit: 'binary', maxLength: 3 }),
);
const texts = fc.array(piece, { maxLength: 30 }).map((pieces) => pieces.join(''));

test('a parser reads every text back, without what XML forbids and nothing else', () => {
  let [cleaned, kept] = [0, 0];
  fc.assert(
    fc.property(texts, (text) => {
      expect(read(twiml(text))).toBe(shown(text));
      if (shown(text) === text) kept += 1;
      else cleaned += 1;
    }),
    { numRuns: 2000 },
  );
  expect(Math.min(cleaned, kept)).toBeGreaterThan(100);
});

test('the reference package writes the same content', () => {
  fc.assert(
    fc.property(texts, (text) => {
      const allowed = shown(text.replace(/[\u0085\u2028]/g, ' '));
      fc.pre(allowed !== null);
      const response = new twilio.twiml.MessagingResponse();
      response.message(allowed ?? '');
      expect(read(response.toString())).toBe(allowed);
      expect(read(twiml(allowed))).toBe(allowed);
    }),
    { numRuns: 500 },
  );
});

test.each([
  '&lt;b&gt; & &amp;',
  '</Message><Message>',
  '<!-- \'"]]> -->',
  'a\r\nb\rc\nd',
  ' a ',
  'a\u0085b\u2028c',
])('%j is text, not markup', (text) => {
  expect(read(twiml(text))).toBe(text);
  expect(twiml(text).split('<Message>')).toHaveLength(2);
});

test('nothing to say is an empty Response', () => {
  const empty = '<?xml version="1.0" encoding="UTF-8"?><Response/>';
  expect(new twilio.twiml.MessagingResponse().toString()).toBe(empty);
  expect(twiml(null)).toBe(empty);
  expect(twiml('')).toBe(empty);
  expect(twiml(' \u0001\n')).toBe(empty);
  expect(read(empty)).toBeNull();
});

test('what XML cannot hold is left out', () => {
  expect(read(twiml('a\ud800b\u0000c\ufffed'))).toBe('abcd');
});

test.each([
  ['a & b', /not well formed/],
  ['a\u0001', /not well formed/],
  ['a\ud800', /not well formed/],
  ['a]]>', /not well formed/],
  ['a < b', /./],
  ['</Message><Message>', /more than a Message/],
  ['<!-- -->', /more than text/],
  ['<b>a</b>', /more than text/],
  ['</Message>', /./],
  ['</Message></Response><Response><Message>', /./],
])('the reader of this test finds fault with %j', (inside, fault) => {
  const xml = twiml('x').replace('>x<', () => `>${inside}<`);
  expect(() => read(xml)).toThrow(fault);
});
