/** The answer to a text as the carrier's XML. */

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&apos;',
};

/** Control signs, and what XML 1.0 cannot hold at all, even escaped; tab and line ends are kept. */
const FORBIDDEN = /[^\t\n\r\u0020-\u007E\u0085\u00A0-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu;

/** One message, or none when `text` is null or has nothing to show. `twiml(null)` ends in "<Response/>". */
export function twiml(text: string | null): string {
  const shown = text === null ? '' : escapeXml(text);
  const body = shown.trim() === '' ? '<Response/>' : `<Response><Message>${shown}</Message></Response>`;
  return `<?xml version="1.0" encoding="UTF-8"?>${body}`;
}

function escapeXml(text: string): string {
  return text.replace(FORBIDDEN, '').replace(/[&<>"']/g, (sign) => ESCAPES[sign] ?? '');
}
