/** Whether the gateway finds our own running line, and whether that takes who has the secret and nobody else. */
import { GATEWAY_PATH } from '../../web/create-app.ts';
import type { Secret } from '../../web/gateway-guard.ts';
import { checkHealth } from './check-public-url.ts';
import { type Finding, type Means, type Reached, reach, well, wrong } from './finding.ts';

/** How the line is reached: its public address, null for none, else its port on this machine. */
export interface Door {
  readonly publicUrl: string | null;
  readonly port: number;
  readonly secret: Secret | null;
}

/** The address without a slash at its end; null when any free port is taken. */
function baseOf({ publicUrl, port }: Door): string | null {
  if (publicUrl !== null) return publicUrl.replace(/\/+$/, '');
  return port === 0 ? null : `http://127.0.0.1:${port}`;
}

/** Asks the line's health where the gateway would find it. */
export async function checkDoor(door: Door, means: Means): Promise<Finding> {
  const base = baseOf(door);
  if (base === null)
    return wrong('The line takes any free port: no gateway can find it.', 'Set PORT, for example to 8080.');
  const setting = door.publicUrl === null ? 'PORT' : 'BUNDLINE_PUBLIC_URL';
  return checkHealth(base, setting, means);
}

/** Brings requests without a text, of which the line keeps nothing: one as the gateway would, and one with another secret. */
export async function checkSecret(door: Door, means: Means): Promise<Finding> {
  const { secret } = door;
  const url = (baseOf(door) ?? '') + GATEWAY_PATH;
  const good = await bring(url, secret, means);
  if (!good.ok) return wrong(`No request reaches ${url}.`, 'Mend what is said of the address first.');
  if (good.status === 404)
    return wrong(
      `The running line takes no texts at ${url} (HTTP 404).`,
      'Start the line with the same BUNDLINE_CARRIER and BUNDLINE_GATEWAY as this check.',
    );
  if (good.status === 403) return shut(secret);
  if (good.status !== 400)
    return wrong(
      `Something else than the line answers at ${url} (HTTP ${good.status}).`,
      'The proxy must pass GET and POST to /gateway on to the line unchanged.',
    );
  if (secret === null)
    return well('The line takes texts from this machine only: for a gateway elsewhere set receive.secret.');
  const bad = await bring(url, { ...secret, value: `${secret.value}x` }, means);
  if (bad.ok && bad.status === 403) return well('The line takes who has the secret and refuses others.');
  return wrong(
    'A wrong secret is not refused: anybody could text in another’s name.',
    'Start the line anew with the gateway’s file as it is now.',
  );
}

function shut(secret: Secret | null): Finding {
  return secret === null
    ? wrong(
        'Without a secret the line takes nothing from another machine (HTTP 403).',
        'Set receive.secret in the gateway’s file, and have the gateway send it; then start the line anew.',
      )
    : wrong(
        'The running line refuses the secret of this file (HTTP 403).',
        'Start the line anew with the gateway’s file as it is now; the proxy must pass headers and queries on.',
      );
}

function bring(url: string, secret: Secret | null, means: Means): Promise<Reached> {
  if (secret === null) return reach(means, url);
  if (secret.place === 'header') return reach(means, url, { headers: { [secret.name]: secret.value } });
  return reach(means, `${url}?${new URLSearchParams({ [secret.name]: secret.value })}`);
}
