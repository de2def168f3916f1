/** Who may reach the line: everybody where something is checked by a secret, else this machine alone. */
import type { Config } from './config.ts';

/**
 * The one address to listen on; null for all of them. Each door looks at its own requests: a secret of numbered screens opens
 * no way for texts.
 */
export function listeningHost({
  signing,
  carrier,
  ussd,
}: Pick<Config, 'signing' | 'carrier' | 'ussd'>): string | null {
  const gatewaySecret = carrier.kind === 'gateway' ? carrier.gateway.receiving.secret : null;
  return signing === null && ussd.secret === null && gatewaySecret === null ? '127.0.0.1' : null;
}
