import { expect, test } from 'vitest';
import { deskCarrier } from '../../src/carriers/desk.ts';

test('the desk takes every text, is simulated, and names the same text alike', async () => {
  const desk = deskCarrier();
  const when = { doubtful: false, queuedMs: 0, validForMs: 60_000 };
  const text = { to: '+447700900001', text: 'x', id: 'i1', key: 'k1', ...when };
  expect(desk.simulated).toBe(true);
  const first = await desk.send({ ...text, attempt: 1 });
  expect(first).toEqual({ kind: 'handed', carrierId: 'desk:k1' });
  expect(await desk.send({ ...text, attempt: 2 })).toEqual(first);
  expect(await desk.send({ ...text, key: 'k2', attempt: 1 })).not.toEqual(first);
});
