import { expect, test } from 'vitest';
import { senderNumber } from '../../src/sweeps/sender.ts';

test.each([
  ['+447700900123', 'GB', '+447700900123'],
  ['07700 900123', 'GB', '+447700900123'],
  ['(07700) 900-123', 'GB', '+447700900123'],
  ['০৭৭০০ ৯০০১২৩', 'GB', '+447700900123'],
  ['+٤٤٧٧٠٠٩٠٠١٢٣', 'GB', '+447700900123'],
  [' 447700900123', 'GB', '+447700900123'],
  ['+447700900123', 'BD', '+447700900123'],
])('%j in %s is %s', (from, country, number) => {
  expect(senderNumber(from, country)).toBe(number);
});

test.each([
  '12345',
  '123456',
  '+12345',
  'BANK',
  'Bank 24',
  'whatsapp:+447700900123',
  '',
  '+',
  '+0447700900123',
  '1'.repeat(40),
])('%j cannot be answered', (from) => {
  expect(senderNumber(from, 'GB')).toBeNull();
});
