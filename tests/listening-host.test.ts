import { expect, test } from 'vitest';
import { listeningHost } from '../src/listening-host.ts';
import { COMMON_SHAPE } from '../src/web/ussd/shape.ts';
import { gatewayWith } from './support/gateways.ts';

const DESK = { carrier: { kind: 'desk' }, signing: null, ussd: COMMON_SHAPE } as const;
const SCREENS = { ...COMMON_SHAPE, secret: { name: 'x-ussd-secret', value: 'a long enough secret' } };
const gateway = (secret: object | null) => ({
  ...DESK,
  carrier: { kind: 'gateway', gateway: gatewayWith({ receive: { secret } }) } as const,
});
const SECRET = { field: 'key', value: 'long-enough' };

test('without any secret only this machine reaches the line', () => {
  expect(listeningHost(DESK)).toBe('127.0.0.1');
  expect(listeningHost(gateway(null))).toBe('127.0.0.1');
});

test('a token, a secret of the gateway or one of the screens opens it', () => {
  expect(listeningHost({ ...DESK, signing: { token: 't', publicUrl: 'https://a.example' } })).toBeNull();
  expect(listeningHost({ ...DESK, ussd: SCREENS })).toBeNull();
  expect(listeningHost(gateway(SECRET))).toBeNull();
  expect(listeningHost({ ...gateway(null), ussd: SCREENS })).toBeNull();
});
