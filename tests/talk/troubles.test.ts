import { describe, expect, test } from 'vitest';
import { phone } from '../support/small-phone.ts';

describe('a lack with its end changes the dates', () => {
  test('no water until a day: noted for the office, and the next steps are told anew', () => {
    const came = phone().text('no water until 20 march');
    expect(came.keys[0]).toBe('trouble.noted');
    expect(came.said).toContain('Sat 20 Mar');
    expect(came.recorded).toEqual([]);
  });

  test('the change stays: the next answer keeps to it', () => {
    const asha = phone();
    asha.text('cleared 1');
    asha.text('no water until 20 march plot 1');
    expect(asha.text('next 1').said).toContain('soak in 2-5 cm of water on Sat 20 Mar');
  });

  test('when seedlings get too old by it, the ways out are asked at once', () => {
    const asha = phone();
    asha.text('nursery sown 1');
    expect(asha.text('no tractor until 15 april plot 1').keys).toContain('conflict.old-seedlings');
  });

  test('without an end nothing is planned anew', () => {
    expect(phone().text('no water').keys).toEqual(['trouble.noted', 'trouble.until-water']);
  });

  test('someone hurt: the clinic and the office', () => {
    const came = phone().text('my child drank pesticide');
    expect(came.keys).toEqual(['trouble.noted', 'trouble.hurt']);
  });
});
