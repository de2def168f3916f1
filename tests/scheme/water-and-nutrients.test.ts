/** What a scheme's file says of canals, fertiliser and the sun: read as it stands, and every mistake named with its place. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { DEFAULT_RULEBOOK } from '../../src/agronomy/rules/default-rulebook.ts';
import { nutrients } from '../../src/agronomy/sums/nutrients.ts';
import { readSchemeFile } from '../../src/scheme/scheme-file.ts';
import { day } from '../support/seasons.ts';
import { made } from '../support/sums.ts';
import { VALLEY } from '../support/valley-scheme.ts';

const read = (text: string) => readSchemeFile(text, day('2027-03-01'));
/** "nutrients, products, 1: what", without the line. */
function mistakes(text: string): readonly string[] {
  const reading = read(text);
  return reading.ok
    ? []
    : reading.mistakes.map(({ place, what }) => `${place.replace(/^line \d+, /, '')}: ${what}`);
}

const withCanal = (canal: string) => VALLEY.replace('name: Upper,', `name: Upper, canal: ${canal},`);
const withNutrients = (products: string, recommendation = '') =>
  `${VALLEY}nutrients:\n${recommendation && `  recommendation: ${recommendation}\n`}  products: ${products}\n`;
const UREA = '{ name: urea, n: 46, bagKg: 50 }';
const COMPOUND = '{ name: compound, n: 14, p2o5: 14, k2o: 14, bagKg: 25 }';

describe('a canal', () => {
  it('is read with its block', () => {
    expect(read(withCanal('{ litresPerSecond: 6, efficiency: 0.7 }'))).toMatchObject({
      ok: true,
      scheme: { blocks: [{ canal: { litresPerSecond: 6, efficiency: 0.7 } }] },
    });
    const reading = read(VALLEY);
    expect(reading.ok && reading.scheme.blocks[0]).not.toHaveProperty('canal');
  });

  it.each([
    ['{ litresPerSecond: 0 }', /^blocks, 1, canal, litresPerSecond: /],
    ['{ litresPerSecond: -5 }', /^blocks, 1, canal, litresPerSecond: /],
    ['{ litresPerSecond: 20000 }', /^blocks, 1, canal, litresPerSecond: /],
    ['{ litresPerSecond: much }', /^blocks, 1, canal, litresPerSecond: .*number/],
    ['{ efficiency: 0.5 }', /^blocks, 1, canal, litresPerSecond: /],
    ['{ litresPerSecond: 5, efficiency: 0 }', /^blocks, 1, canal, efficiency: /],
    ['{ litresPerSecond: 5, efficiency: 75 }', /^blocks, 1, canal, efficiency: /],
    ['{ litresPerSecond: 5, lined: yes }', /^blocks, 1, canal: .*lined/],
  ])('%s is a mistake', (canal, told) => {
    expect(mistakes(withCanal(canal))).toEqual([expect.stringMatching(told)]);
  });
});

describe('fertiliser', () => {
  it('is read with what is left out filled in', () => {
    const text = withNutrients(
      `[${UREA}, ${COMPOUND}]`,
      '{ n: 90, p2o5: 30, k2o: 30, source: "Valley office: 2025" }',
    );
    expect(read(text)).toMatchObject({
      ok: true,
      scheme: {
        nutrients: {
          recommendation: { n: 90, p2o5: 30, k2o: 30, source: 'Valley office: 2025' },
          products: [
            { name: 'urea', n: 46, p2o5: 0, k2o: 0, bagKg: 50 },
            { name: 'compound', bagKg: 25 },
          ],
        },
      },
    });
  });

  it('may go without a recommendation, and a scheme without either', () => {
    expect(mistakes(withNutrients(`[${UREA}]`))).toEqual([]);
    const reading = read(VALLEY);
    expect(reading.ok && reading.scheme).not.toHaveProperty('nutrients');
  });

  const need = (n: number, p2o5: number, source = 'source: office') =>
    `{ n: ${n}, p2o5: ${p2o5}, k2o: 0, ${source} }`;
  it.each([
    ['[]', '', 'nutrients, products: at least one product'],
    [
      '[{ name: wrong, n: 60, p2o5: 41, bagKg: 50 }]',
      '',
      'nutrients, products, 1: wrong 60-41-0 %: a product cannot hold more than 100 % in all',
    ],
    [
      `[${UREA}, { name: chalk, bagKg: 50 }]`,
      '',
      'nutrients, products, 2: chalk 0-0-0 %: such a product holds no nutrient',
    ],
    [`[${UREA}, ${UREA}]`, '', 'nutrients, products, 2: urea is there twice'],
    ['[{ name: urea, n: 46, bagKg: 5000 }]', '', 'nutrients, products, 1: urea 5000 kg a bag cannot be'],
    [
      `[${[1, 2, 3, 4, 5, 6, 7].map((one) => `{ name: p${one}, n: ${one}, bagKg: 50 }`).join(', ')}]`,
      '',
      'nutrients, products: 7 products; at most 6',
    ],
    [`[${UREA}]`, need(90, 30), 'nutrients, recommendation: P2O5 is recommended, but no product holds it'],
    [`[${UREA}]`, need(0, 0), 'nutrients, recommendation: 0-0-0 kg/ha asks for nothing'],
    [
      `[${UREA}]`,
      need(900, 0),
      'nutrients, recommendation: 900 N kg/ha: no recommendation is under 0 or so high',
    ],
    [`[${UREA}]`, need(90, 0, 'source: ""'), 'nutrients, recommendation, source: no number without a source'],
    [
      `[${UREA}]`,
      '{ n: 90, p2o5: 0, k2o: 0 }',
      'nutrients, recommendation, source: no number without a source',
    ],
  ])('products %s, recommendation %s: a mistake', (products, recommendation, told) => {
    expect(mistakes(withNutrients(products, recommendation))).toEqual([told]);
  });

  it.each([
    ['[{ name: urea, n: 46 }]', /^nutrients, products, 1, bagKg: /],
    ['[{ name: urea, n: 46, bagKg: 0 }]', /^nutrients, products, 1, bagKg: /],
    ['[{ name: urea, n: -46, bagKg: 50 }]', /^nutrients, products, 1, n: /],
    ['[{ name: urea, n: 146, bagKg: 50 }]', /^nutrients, products, 1, n: /],
    ['[{ name: "", n: 46, bagKg: 50 }]', /^nutrients, products, 1, name: /],
    ['[{ name: urea, n: 46, bagKg: 50, price: 3 }]', /^nutrients, products, 1: .*price/],
    ['urea', /^nutrients, products: /],
  ])('products %s are a mistake of form', (products, told) => {
    expect(mistakes(withNutrients(products))).toEqual([expect.stringMatching(told)]);
  });
});

describe('the sun of a place', () => {
  const year = (value: number) => `[${Array<number>(12).fill(value).join(', ')}]`;
  const climate = (fields: string) => `${VALLEY}climate: { ${fields}, source: a station }\n`;

  it('is read', () => {
    const text = climate(`latitude: -6.5, minTemperatureC: ${year(18)}, maxTemperatureC: ${year(29)}`);
    expect(read(text)).toMatchObject({
      ok: true,
      scheme: { climate: { latitude: -6.5, maxTemperatureC: Array<number>(12).fill(29) } },
    });
  });

  it.each([
    ['latitude: 91', /^climate, latitude: /],
    [`latitude: 5, minTemperatureC: ${year(18)}`, /^climate, minTemperatureC: .*only together/],
    [
      `minTemperatureC: ${year(18)}, maxTemperatureC: ${year(29)}`,
      /^climate, minTemperatureC: .*only together/,
    ],
    [`latitude: 5, maxTemperatureC: ${year(29)}`, /^climate, maxTemperatureC: .*only together/],
    [`latitude: 5, minTemperatureC: [18], maxTemperatureC: ${year(29)}`, /twelve numbers/],
    [
      `latitude: 5, minTemperatureC: ${year(18)}, maxTemperatureC: ${year(90)}`,
      /^climate, maxTemperatureC, 1: /,
    ],
    [
      `latitude: 5, minTemperatureC: [18, 18, 31, ${Array(9).fill(18).join(', ')}], maxTemperatureC: ${year(29)}`,
      /^climate, minTemperatureC, 3: 31 is over the highest of that month, 29$/,
    ],
  ])('%s is a mistake', (fields, told) => {
    expect(mistakes(climate(fields))[0]).toMatch(told);
  });
});

describe('the demo scheme', () => {
  const DEMO = readFileSync(new URL('../../scripts/demo/orrowe-valley.yaml', import.meta.url), 'utf8');
  const reading = read(DEMO);
  if (!reading.ok) throw new Error(JSON.stringify(reading.mistakes));
  const { blocks, nutrients: sold } = reading.scheme;

  it('has a canal for every block', () => {
    for (const { canal, id } of blocks) expect(canal?.litresPerSecond, id).toBeGreaterThan(0);
  });

  it('says that its recommendation is invented, and its products can cover it', () => {
    const recommendation = sold?.recommendation;
    if (!sold || !recommendation) throw new Error('nothing is recommended');
    expect(recommendation.source).toContain('invented');
    const { products } = sold;
    const terms = { areaHa: 0.4, needKgPerHa: recommendation, products, split: { topdresses: 2 } };
    expect(made(nutrients(terms, DEFAULT_RULEBOOK)).buy.length).toBeGreaterThan(0);
  });
});
