import fc from 'fast-check';
import { expect, test } from 'vitest';
import { priceOfParts, shownPrice, sumOfPrices } from '../../src/scheme/price.ts';

test.each([
  [3, 0.1, '0.3'],
  [3, 0.04, '0.12'],
  [25, 0.04, '1'],
  [7, 1000, '7000'],
  [3, 1e-7, '0.0000003'],
  [0, 0.04, '0'],
  [2, 1.5e-8, '0.00000003'],
])('%i parts at %f are %s', (parts, amount, price) => {
  expect(priceOfParts(parts, amount)).toBe(price);
});

test('sums are exact where binary fractions are not', () => {
  expect(sumOfPrices(Array.from({ length: 10 }, () => '0.1'))).toBe('1');
  expect(sumOfPrices(['0.1', '0.02', '3'])).toBe('3.12');
  expect(sumOfPrices([])).toBe('0');
  expect(() => sumOfPrices(['1', '-2'])).toThrow('"-2" is no price');
  expect(() => sumOfPrices(['x'])).toThrow('is no price');
});

test('a sum of parts is the price of the sum of parts, whatever the price', () => {
  const amount = fc.integer({ min: 1, max: 999_999 }).map((units) => units / 10_000);
  fc.assert(
    fc.property(amount, fc.array(fc.integer({ min: 0, max: 9 }), { maxLength: 30 }), (price, parts) => {
      const whole = parts.reduce((sum, one) => sum + one, 0);
      expect(sumOfPrices(parts.map((one) => priceOfParts(one, price)))).toBe(priceOfParts(whole, price));
      expect(Number(priceOfParts(whole, price))).toBeCloseTo(whole * price, 6);
    }),
  );
});

test.each([
  ['0', '0.00'],
  ['0.2', '0.20'],
  ['4.04', '4.04'],
  ['0.035', '0.035'],
  ['7000', '7000.00'],
])('%s is shown as %s', (price, shown) => {
  expect(shownPrice(price)).toBe(shown);
});
