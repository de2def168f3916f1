import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { USUAL_WAY } from '../../src/agronomy/season.ts';
import { areaHa, unitHa } from '../../src/scheme/area-text.ts';
import { KNOWN, mistakesIn, readPeopleText } from '../support/people-csv.ts';

const HEADER =
  'name,phone,language,block,plot,number,area,unit,variety_days,tillage,establishment,nursery,water,place';
const SHORT = 'name,phone,language,block,plot,area';
const ZOE = 'Zoe,07700 900101,en,Upper';

function plotsIn(text: string) {
  const reading = readPeopleText(text);
  if (!reading.ok) throw new Error(JSON.stringify(reading.mistakes));
  return reading.changes.flatMap((change) =>
    change.kind === 'add-grower' ? change.plots : change.kind === 'add-plot' ? [change.plot] : [],
  );
}

describe('a row', () => {
  test('says everything of a plot', () => {
    const row = `${ZOE},U-7,4,2,tins,130,animals,transplant,mat,irrigated,9`;
    expect(readPeopleText(`${HEADER}\n${row}`)).toEqual({
      ok: true,
      changes: [
        {
          kind: 'add-grower',
          name: 'Zoe',
          lang: 'en',
          phone: '+447700900101',
          plots: [
            {
              number: '4',
              label: 'U-7',
              blockId: 'v/upper',
              areaHa: 0.1,
              way: { ...USUAL_WAY, tillage: 'animals', nursery: 'mat' },
              varietyDays: 130,
              place: 9,
            },
          ],
        },
      ],
      added: [{ phone: '+447700900101', blockId: 'v/upper', areaHa: 0.1 }],
      newGrowers: 1,
      knownPlots: 0,
    });
  });

  test('that leaves open what it may goes by the block, the scheme and what is free', () => {
    const text = `${SHORT}\n${ZOE},,0.5\n${ZOE},,0.5\nANN,+447700900011,EN,low,,1\nYan,+447700900102,fr,V/UPPER,U-2,1`;
    expect(plotsIn(text)).toMatchObject([
      {
        number: '1',
        label: 'U-4',
        varietyDays: 105,
        place: null,
        way: { water: 'rain-fed', establishment: 'wet-seed', tillage: 'two-wheel' },
      },
      { number: '2', label: 'U-5' },
      { number: '4', label: 'E-1', blockId: 'v/low', way: USUAL_WAY },
      { number: '1', label: 'U-2' },
    ]);
  });

  test('of somebody who is known adds a plot, of another name on the same phone a grower', () => {
    const reading = readPeopleText(
      `${SHORT}\nann ,+447700900011,en,Upper,U-8,1\nAnnabel,+447700900011,en,Upper,U-9,1`,
    );
    expect(reading).toMatchObject({
      newGrowers: 1,
      changes: [
        { kind: 'add-plot', growerId: 'ann', plot: { number: '4' } },
        { kind: 'add-grower', name: 'Annabel' },
      ],
    });
  });
});

describe('the form of the file', () => {
  const rows = [
    SHORT,
    'Zoe,07700 900101,en,Upper,U-7,1',
    '"Yan\nLi",07700 900102,fr,low,E-1,2',
    'Xia,07700 900103,en,low,,1',
  ];
  const plain = readPeopleText(rows.join('\n'));

  test.each([
    ['CRLF', rows.join('\r\n')],
    ['a byte order mark', `\uFEFF${rows.join('\n')}`],
    ['semicolons', rows.join('\n').replaceAll(',', ';')],
    ['tabs and CRLF', `\uFEFF${rows.join('\r\n').replaceAll(',', '\t')}\r\n`],
    ['empty lines, and rows of nothing', `\n${rows.join('\n\n')}\n,,,,,\n\n`],
    ['columns in capitals', [SHORT.toUpperCase(), ...rows.slice(1)].join('\n')],
    ['quoted columns', [`"${SHORT.replaceAll(',', '","')}"`, ...rows.slice(1)].join('\n')],
  ])('may have %s', (_, text) => {
    expect(plain).toMatchObject({ ok: true, newGrowers: 3 });
    expect(readPeopleText(text)).toEqual(plain);
  });

  test('may have its columns in any order', () => {
    const turned = rows.map((row) => row.split(',').reverse().join(','));
    expect(readPeopleText(turned.join('\n'))).toEqual(plain);
  });

  test('takes a decimal comma where it is no separator', () => {
    const [first] = plotsIn(`${SHORT}\n${ZOE},U-7,"0,45"`);
    const [second] = plotsIn(`${SHORT}\n${ZOE},U-7,0.45`.replaceAll(',', ';').replace('.', ','));
    expect([first?.areaHa, second]).toEqual([0.45, first]);
  });

  test('takes back the apostrophe that a spreadsheet was guarded with', () => {
    expect(readPeopleText(`${SHORT}\nZoe,'+447700900101,en,Upper,U-7,1`)).toMatchObject({
      changes: [{ phone: '+447700900101' }],
    });
  });
});

describe('mistakes', () => {
  const faults: readonly (readonly [string, string, string])[] = [
    ['name', ',07700 900101,en,Upper,,,1,,,,,,,', 'the name is missing'],
    [
      'name',
      `${'x'.repeat(61)},07700 900101,en,Upper,,,1,,,,,,,`,
      `"${'x'.repeat(61)}" is longer than 60 letters`,
    ],
    ['name', 'Z\u0001,07700 900101,en,Upper,,,1,,,,,,,', '"Z\\u0001" has signs that are no letters'],
    ['phone', 'Zoe,,en,Upper,,,1,,,,,,,', 'the phone is missing'],
    ['phone', 'Zoe,12,en,Upper,,,1,,,,,,,', '"12" is not a phone number'],
    ['language', 'Zoe,07700 900101,,Upper,,,1,,,,,,,', 'the language is missing'],
    ['language', 'Zoe,07700 900101,sw,Upper,,,1,,,,,,,', '"sw" is none of en, fr'],
    ['block', 'Zoe,07700 900101,en,,,,1,,,,,,,', 'the block is missing'],
    ['block', 'Zoe,07700 900101,en,Uper,,,1,,,,,,,', '"Uper" is none of the blocks Upper, Étang bas'],
    ['plot', `${ZOE},7,,1,,,,,,,`, '"7" is no label: write letters and a number, like A-17'],
    ['plot', `${ZOE},u 01,,1,,,,,,,`, '"u 01" is no label: write letters and a number, like A-17'],
    ['plot', `${ZOE},u01,,1,,,,,,,`, '"u01" is a plot of Ann already'],
    ['number', `${ZOE},,0,1,,,,,,,`, '"0" is no plot number: write 1 to 999'],
    ['number', 'Zoe,+447700900001,en,Upper,,2,1,,,,,,,', '"2" is the number of another plot on this phone'],
    ['area', `${ZOE},,,,,,,,,,`, 'the area is missing'],
    ['area', `${ZOE},,,"0,x",,,,,,,`, '"0,x" is not a number'],
    ['area', `${ZOE},,,-1,,,,,,,`, '"-1" is not a number'],
    ['area', `${ZOE},,,0,,,,,,,`, '"0" is no area: it must be more than 0'],
    ['area', `${ZOE},,,0.4,m2,,,,,,`, '"0.4" is no area: it must be more than 0'],
    ['area', `${ZOE},,,101,,,,,,,`, '"101" is more than 100 ha'],
    [
      'area',
      `${ZOE},,,"1,200",m2,,,,,,`,
      '"1,200" can be read in two ways: write thousands without a sign between',
    ],
    ['unit', `${ZOE},,,1,rai,,,,,,`, '"rai" is no unit of area that is known (ha, m2, acre, tin)'],
    ['unit', `${ZOE},,,1,toString,,,,,,`, '"toString" is no unit of area that is known (ha, m2, acre, tin)'],
    ['variety_days', `${ZOE},,,1,,59,,,,,`, '"59" is not a number of days from 60 to 240'],
    ['tillage', `${ZOE},,,1,,,ox,,,,`, '"ox" is none of hoe, animals, two-wheel, none'],
    ['establishment', `${ZOE},,,1,,,,sown,,,`, '"sown" is none of transplant, wet-seed'],
    ['nursery', `${ZOE},,,1,,,,,bed,,`, '"bed" is none of wet-bed, dry-bed, mat'],
    ['water', `${ZOE},,,1,,,,,,rain,`, '"rain" is none of irrigated, rain-fed'],
    ['place', `${ZOE},,,1,,,,,,,first`, '"first" is no place along the canal: write 1 for the first'],
  ];

  test.each(faults)('%s: %s', (column, row, what) => {
    expect(mistakesIn(`${HEADER}\n${row}`)).toEqual([`line 2, ${column}: ${what}`]);
  });

  test('come all at once, with the lines of the file also after line breaks in quotes', () => {
    const text = [
      SHORT,
      '"Zoe\r\n\r\nLi",12,en,Upper,U-7,0',
      '',
      'Yan,+447700900102,en,Upper,U-7,1',
      'yan,+447700900102,fr,Upper,U-8',
      'Yan,+447700900102,fr,low,U-8,1',
    ].join('\r\n');
    expect(mistakesIn(text)).toEqual([
      'line 2, phone: "12" is not a phone number',
      'line 2, area: "0" is no area: it must be more than 0',
      'line 6, plot: "U-7" is on line 2 too',
      'line 7: has 5 fields where the header has 6',
      'line 8, language: "fr" is not the language of this grower on line 6: en',
    ]);
  });

  test('of one number twice on one phone, also for two people', () => {
    const text = `${SHORT},number\nZoe,07700900101,en,Upper,,1,5\nYan,07700900101,en,Upper,,1,05\nYan,07700900102,en,Upper,,1,5`;
    expect(mistakesIn(text)).toEqual(['line 3, number: "05" is on line 2 too, for the same phone']);
  });

  test('of the header: columns unknown, missing and twice', () => {
    expect(mistakesIn('name,phone,Phone,colour,block,plot,area,\nZoe,1')).toEqual([
      'line 1, phone: "Phone" is there twice',
      expect.stringMatching(/^line 1: "colour" is no column that is known \(name, /),
      'line 1: a column has no name',
      'line 1, language: the column is missing',
    ]);
    expect(mistakesIn('')).toHaveLength(6);
    const noted = `${SHORT.replaceAll(',', ';')};"note, or two, or three, or four, or five, or six, or seven, or eight"`;
    expect(mistakesIn(noted)).toEqual([
      expect.stringMatching(/^line 1: "note, or two.* is no column that is known/),
    ]);
  });

  test('of quotes and letters that cannot be read, beside those of the rows before', () => {
    expect(mistakesIn(`${SHORT}\n${ZOE},,x\n\n"Yan,1\n${ZOE},,1\n`)).toEqual([
      'line 2, area: "x" is not a number',
      'line 4: a quotation mark is opened here and never closed; what follows was not read',
    ]);
    expect(mistakesIn(`${SHORT}\n"Zoe" B,07700900101,en,Upper,,1`)).toEqual([
      'line 2: a quotation mark stands where none can; what follows was not read',
    ]);
    const latin = Buffer.from(`${SHORT}\n${ZOE},,1\nRené,07700900102,en,Upper,,1\n`, 'latin1');
    expect(mistakesIn(latin)).toContain('line 3: is not in UTF-8: save the file with that encoding');
  });
});

describe('what is there already', () => {
  const own = `${SHORT},number\nAnn,+447700900011,en,Upper,u01,0.4,1\nAnn,07700 900001,en,low,,0.25,\n`;

  test('counts as known and changes nothing', () => {
    expect(readPeopleText(own)).toMatchObject({ ok: true, changes: [], knownPlots: 2 });
  });

  test('without a label is told by its number, and its number is no mistake beside others', () => {
    const two = {
      ...KNOWN,
      plots: [...KNOWN.plots, { ownerId: 'ann', number: '7', label: 'E-7', blockId: 'v/low', areaHa: 0.25 }],
    };
    const rows = `${SHORT},number\nAnn,07700 900001,en,low,,0.25,\nAnn,07700 900001,en,low,,0.25,2\n`;
    expect(readPeopleText(rows, two)).toMatchObject({ ok: true, changes: [], knownPlots: 2 });
    expect(mistakesIn(`${SHORT},number\nAnn,07700 900001,en,low,,x,2`)).toEqual([
      'line 2, area: "x" is not a number',
    ]);
    expect(mistakesIn(`${SHORT},number\nAnn,07700 900001,en,low,,0.3,2`)).toEqual([
      'line 2, number: "2" is the number of another plot on this phone',
    ]);
  });

  test('is told with both values where the file has another block or area', () => {
    expect(mistakesIn(own.replace('Upper', 'low').replace('0.4', '0.5'))).toEqual([
      'line 2, block: "low" is not the block that U-1 is known in: Upper',
      'line 2, area: "0.5" is not the area that U-1 is known with: 0.4 ha',
    ]);
  });

  test('is known once: a second such row is one more plot', () => {
    expect(plotsIn(`${own}Ann,07700 900001,en,low,,0.25,\n`)).toMatchObject([{ number: '4', label: 'E-1' }]);
  });
});

describe('areas', () => {
  test('are read in every unit, to the square metre', () => {
    const units = ['', 'HA', 'm²', 'acre', 'Tins'].map((unit) => unitHa(unit, KNOWN.areaUnit));
    expect(units.map((ha) => (ha === null ? null : areaHa('3', ha)))).toEqual([3, 3, 0.0003, 1.2141, 0.15]);
    expect(areaHa('1,250', 1)).toBe(1.25);
    expect(areaHa('0,125', 0.0001 * 500)).toBe(0.0063);
  });
});

describe('any text', () => {
  const part = fc.oneof(
    fc.constantFrom(
      ...HEADER.split(','),
      ',',
      ';',
      '\t',
      '"',
      '""',
      '\n',
      '\r\n',
      '\r',
      '\uFEFF',
      '\0',
      '\ud800',
    ),
    fc.constantFrom(
      'Zoe',
      'Ann',
      '+447700900001',
      '07700900101',
      'en',
      'Upper',
      'U-1',
      '0,4',
      '1e9',
      '__proto__',
    ),
    fc.string({ unit: 'binary', maxLength: 5 }),
  );

  test('gives changes or mistakes, and is never thrown at', () => {
    const bytes = fc.oneof(
      fc.array(part, { maxLength: 40 }).map((parts) => parts.join('')),
      fc.array(part, { maxLength: 60 }).map((parts) => `${SHORT}\n${parts.join(',')}`),
      fc.uint8Array({ maxLength: 200 }),
    );
    fc.assert(
      fc.property(bytes, (text) => {
        const reading = readPeopleText(text);
        const lines = Buffer.from(text)
          .toString()
          .split(/\r\n?|\n/).length;
        if (reading.ok) return reading.changes.length === reading.added.length;
        return (
          reading.mistakes.length > 0 && reading.mistakes.every(({ line }) => line >= 1 && line <= lines)
        );
      }),
      { numRuns: 2000 },
    );
  });

  test('rows of good fields are all taken, each under a number and a label of its own', () => {
    const row = fc.record({
      who: fc.integer({ min: 0, max: 5 }),
      block: fc.constantFrom('Upper', 'low'),
      m2: fc.integer({ min: 1, max: 900 }),
    });
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 30 }), (rows) => {
        const text = rows.map(({ who, block, m2 }) => `N${who};+44770090010${who % 3};en;${block};;${m2};m2`);
        const plots = plotsIn(['name;phone;language;block;plot;area;unit', ...text].join('\n'));
        expect(plots.map((plot) => Math.round(plot.areaHa * 10_000))).toEqual(rows.map(({ m2 }) => m2));
        expect(new Set(plots.map(({ label }) => label)).size).toBe(rows.length);
        const numbers = rows.map(({ who }, index) => `${who % 3} ${plots[index]?.number}`);
        expect(new Set(numbers).size).toBe(rows.length);
      }),
    );
  });
});
