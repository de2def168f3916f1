/** The answer to a text as the carrier's XML. */

/** Signs of markup; and line ends that a reader would make "\n" of (XML 1.0, 2.11; NEL and LS by XML 1.1, 2.11). */
const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&apos;',
  '\r': '&#xD;',
  '\u0085': '&#x85;',
  '\u2028': '&#x2028;',
};

/** Control signs, and what XML 1.0 cannot hold at all, even escaped; tab and line ends are kept. */
const FORBIDDEN = /[^\t\n\r\u0020-\u007E\u0085\u00A0-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu;

/** One message, or none when `text` is null or has nothing to show. `twiml(null)` ends in "<Response/>". */
export function twiml(text: string | null): string {
  const shown = (text ?? '').replace(FORBIDDEN, '');
  const body =
    shown.trim() === '' ? '<Response/>' : `<Response><Message>${escapeXml(shown)}</Message></Response>`;
  return `<?xml version="1.0" encoding="UTF-8"?>${body}`;
}

function escapeXml(text: string): string {
  return text.replace(/[&<>"'\r\u0085\u2028]/g, (sign) => ESCAPES[sign] ?? '');
}
