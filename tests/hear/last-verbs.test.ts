/** Verbs that come last, plot numbers before their word, days that the verb places, letters written for each other: in Bengali. */
import { describe, expect, test } from 'vitest';
import { hear } from '../../src/hear/hear.ts';
import { alikeKey } from '../../src/hear/nearness.ts';
import { LANGUAGES, reportsIn, TODAY } from './languages.ts';

const BENGALI = LANGUAGES.find((one) => one.lang === 'bn')!;
const read = (text: string) => hear(text, BENGALI.lexicon, TODAY);
const kinds = (text: string) => {
  const { readings, unclear } = read(text);
  return unclear
    ? unclear.why
    : readings.map((one) => ('activity' in one ? `${one.kind} ${one.activity}` : one.kind));
};

describe('a helping verb says how the work before it stands', () => {
  test.each([
    ['৩ নং জমি চাষ করেছি', ['report plough']],
    ['চাষ ৩ নং জমিতে কাল সকালে করেছি', ['report plough']],
    ['৩ নং জমি চাষ করা হয়ে গেছে', ['report plough']],
    ['৩ নং জমি চাষ করিনি', ['not-done plough']],
    ['৩ নং জমি চাষ করা হয় নাই', ['not-done plough']],
    ['৩ নং জমি চাষ করতে পারি নাই', ['not-done plough']],
    ['৩ নং জমি চাষ বাকি', ['not-done plough']],
    ['৩ নং জমি চাষ করে ফেলব', ['intend plough']],
    ['৩ নং জমি চাষ করতে চাই', ['intend plough']],
    ['৩ নং জমি চাষ করে জানাব', ['intend plough']],
    ['৩ নং জমি চাষ করব পরে', ['intend plough']],
    ['৩ নং জমি চাষ করেছি কি', ['ask plough']],
    ['jomi 3 chas hoise naki', ['ask plough']],
    ['৩ নং জমি চাষ করছি', 'two-meanings'],
    ['৩ নং জমি চাষ করেছে', 'two-meanings'],
    ['৩ নং জমি চাষ করেন', 'two-meanings'],
    ['৩ নং জমি চাষ করলে', 'two-meanings'],
    ['মনে হয় ৩ নং জমি চাষ করেছি', 'two-meanings'],
    ['শুনলাম ৩ নং জমি চাষ হয়েছে', 'two-meanings'],
    ['৩ নং জমি চাষ করতে গেছি', 'two-meanings'],
  ])('%s', (text, expected) => expect(kinds(text)).toEqual(expected));
});

describe('several works in one sentence', () => {
  test.each([
    ['৩ নং চাষ করে মই দিছি', ['report plough', 'report level']],
    ['৩ নং চাষ করে মই দিব', ['intend plough', 'intend level']],
    ['৩ নং চাষ শেষ করে পানি দিব', ['intend plough', 'intend flood']],
    ['৩ নং চাষ করে মই দেই নাই', 'two-meanings'],
    ['৩ নং চাষ ও মই শেষ', ['report plough', 'report level']],
    ['৩ নং জমিতে ইউরিয়া ৮ কেজি, পটাশ ৫ কেজি দিছি', ['report topdress', 'report basal']],
    ['৩ নং ইউরিয়া ৮ কেজি, পটাশ ৫ কেজি দেই নাই', 'two-meanings'],
    ['keno jomi 3 pani dite hobe ekhon', ['ask flood']],
    ['১ নং চাষ আর ২ নং মই দিছি', ['report plough', 'report level']],
    ['jomi 1 chas korsi jomi 2 moi disi', ['report plough', 'report level']],
    ['jomi 3 chas korsi kintu jomi 4 korini', ['report plough', 'not-done plough']],
    ['aj jomi 5 gobor disi, kal jomi 5 chas korbo', ['report manure', 'intend plough']],
  ])('%s', (text, expected) => expect(kinds(text)).toEqual(expected));
});

test.each([
  ['মই দিয়ে ৩ নং জমি সমান করলাম', [{ activity: 'level', plots: ['3'], on: '2027-03-10' }]],
  [
    'চাষ করে কাল ৩ নং জমিতে মই দিছি',
    [
      { activity: 'plough', plots: ['3'], on: '2027-03-09' },
      { activity: 'level', plots: ['3'], on: '2027-03-09' },
    ],
  ],
])('a linking verb takes the plot and day behind it: "%s"', (text, expected) =>
  expect(reportsIn(read(text))).toMatchObject(expected),
);

test.each(['১ নং জমির আগাছা মেরে চাষ দিলাম', '১ নং জমিতে গিয়ে চাষ দিলাম'])(
  'a linking verb that is no work leaves its plot to the one behind: "%s"',
  (text) => expect(reportsIn(read(text))).toMatchObject([{ activity: 'plough', plots: ['1'] }]),
);

test('a phrase with figures is found in the figures of either script', () => {
  for (const text of ['২য় কিস্তি দিছি ৩ নং', '2য় কিস্তি দিছি 3 নং'])
    expect(reportsIn(read(text))).toMatchObject([{ activity: 'topdress', plots: ['3'] }]);
});

describe("what the grower's own people did is the grower's", () => {
  test.each([
    ['আমার ছেলে ৩ নং জমি চাষ করেছে', ['report plough']],
    ['কামলারা ৩ নং রোয়া শেষ করেছে', ['report transplant']],
    ['আমার ছেলে ৩ নং জমি চাষ করেনি', ['not-done plough']],
    ['আমার ছেলে ৩ নং জমি চাষ করবে', ['intend plough']],
    ['আমার ছেলে কি ৩ নং জমি চাষ করেছে', ['ask plough']],
    ['আমার ছেলে ৩ নং জমি চাষ করছে', 'two-meanings'],
    ['আমার ছেলে বলেছে ৩ নং জমি চাষ হয়েছে', 'two-meanings'],
    ['আমার ছেলে ৩ নং জমি চাষ করতে গেছে', 'two-meanings'],
    ['কামলারা চাচার জমিতে রোয়া দিছে', 'two-meanings'],
    ['রহিমের ছেলে ৩ নং জমি চাষ করেছে', 'two-meanings'],
    ['আমার ভাইয়ের জমি চাষ হয়েছে', 'two-meanings'],
    ['কামলা লাগাইছি ৩ নং', 'which-activity'],
    ['পুকুরের কচুরি মেরে আগাছা পরিষ্কার করলাম', 'nothing-known'],
  ])('%s', (text, expected) => expect(kinds(text)).toEqual(expected));
});

test('a stage behind the last of several names of work is for all of them', () => {
  expect(reportsIn(read('৩ নং চাষ ও মই শুরু করেছি'))).toMatchObject([
    { activity: 'plough', stage: 'started' },
    { activity: 'level', stage: 'started' },
  ]);
});

test('four rounds of one work and two of another name no plots', () => {
  expect(reportsIn(read('৩ নং জমিতে চার চাষ দুই মই দিছি'))).toMatchObject([
    { activity: 'plough', plots: ['3'] },
    { activity: 'level', plots: ['3'] },
  ]);
});

test('seed broadcast beside a nursery went there, or onto a plot', () => {
  expect(kinds('বীজতলা করা হয়ে গেছে, ধান ছিটাইছি')).toBe('two-meanings');
});

describe('plots before their word', () => {
  test.each([
    ['৩ নং চাষ শেষ', ['3']],
    ['৩নং জমিতে চাষ শেষ', ['3']],
    ['১, ২ ও ৫ নম্বর জমি চাষ শেষ', ['1', '2', '5']],
    ['1 theke 3 jomi chas sesh', ['1', '2', '3']],
    ['১/২ নং চাষ শেষ', ['1', '2']],
    ['8 march 1 theke 3 jomi chas sesh', ['1', '2', '3']],
    ['নয় নম্বর জমি চাষ শেষ', ['9']],
    ['৩ নম্বর জমি ১২ সেমি চাষ দিছি', ['3']],
    ['৩ নং জমি ২ চাষ দিলাম', ['3']],
    ['3 no jomi dui chas disi', ['3']],
    ['জমি ২ চাষ দিলাম', ['2']],
    ['৩টা জমি চাষ করেছি', []],
    ['tinta jomi chas korsi', []],
  ])('%s', (text, plots) => expect(reportsIn(read(text))).toMatchObject([{ plots }]));

  test.each([
    '2 jomi chas korsi',
    '৩ নং জমি ১২ চাষ দিছি',
    '2 no jomite char lagano suru korsi',
    'jomi 3 chas 4 moi disi',
    '৩ নং নয় ৪ নং চাষ করেছি',
    'jomi 3 noy jomi 4 chas korsi',
    'jomi 3 ba 4 chas korsi',
  ])('"%s" is asked about', (text) => expect(reportsIn(read(text))).toEqual([]));
});

describe('days', () => {
  const on = (text: string) => read(text).readings.map((one) => ('on' in one ? one.on : null));
  test.each([
    ['কাল ৩ নং চাষ করেছি', '2027-03-09'],
    ['কাল ৩ নং চাষ করব', '2027-03-11'],
    ['porshu jomi 3 chas korsi', '2027-03-08'],
    ['porshu jomi 3 chas korbo', '2027-03-12'],
    ['৬ তারিখে ৩ নং চাষ করেছি', '2027-03-06'],
    ['মার্চের ৫ তারিখে ৩ নং চাষ করেছি', '2027-03-05'],
    ['৫ই মার্চ ৩ নং চাষ করেছি', '2027-03-05'],
    ['৩ দিন আগে ৩ নং চাষ করেছি', '2027-03-07'],
    ['সোমবার ৩ নং চাষ করেছি', '2027-03-08'],
    ['সোমবার ৩ নং চাষ করব', '2027-03-15'],
  ])('%s', (text, day) => expect(on(text)).toEqual([day]));

  test.each([
    ['kal jomi 3 chas', 'which-day'],
    ['কাল ৩ নং চাষ শুরু', 'which-day'],
    ['8 ba 9 march jomi 4 kada korechi', 'which-day'],
    ['৩১ এপ্রিল ৩ নং চাষ করেছি', 'impossible-date'],
    ['৩২/৩ jomi 3 chas korsi', 'impossible-date'],
    ['আগামীকাল ৩ নং চাষ করেছি', 'future-date'],
  ])('%s', (text, why) => expect(read(text)).toMatchObject({ readings: [], unclear: { why } }));

  test.each([
    ['শুক্রবার পর্যন্ত পানি নাই', '2027-03-12'],
    ['15 march er age bij pabo na', '2027-03-15'],
  ])('%s', (text, until) => expect(read(text).readings).toMatchObject([{ kind: 'trouble', until }]));
});

describe('spellings', () => {
  test('letters that stand for each other are one', () => {
    expect(
      alikeKey('chhash', [
        ['chh', 'c'],
        ['ch', 'c'],
        ['sh', 's'],
      ]),
    ).toBe('cas');
  });

  test.each([
    'jomi 3 chas korsi',
    'jomi 3 chash korsi',
    'jomi 3 chaash korsii',
    'JOMI 3 CAS KORSI',
    '৩ নম্বর জমি চাস করসি',
    '৩ নম্বর জমী চাষ করেছি',
    '৩\u200c নম্বর\u200d জমি চাষ করেছি',
  ])('%s', (text) => expect(reportsIn(read(text))).toMatchObject([{ activity: 'plough', plots: ['3'] }]));

  test.each([
    ['\u09DF', '\u09AF\u09BC'],
    ['\u09DC', '\u09A1\u09BC'],
  ])('both encodings of %s are one', (whole, parts) => {
    const said = `জমি ৩ ভিজি${whole === '\u09DF' ? whole : '\u09DF'}েছি, নি${whole === '\u09DC' ? whole : '\u09DC'}ানি দিছি`;
    expect(read(said.replaceAll(whole, parts))).toEqual(read(said));
  });
});

test('an order of words that puts the block first is a command too', () => {
  expect(read('ব্লক A পানি ১২ মার্চ').readings).toMatchObject([
    { kind: 'agent', what: 'flood', block: 'A', on: '2027-03-12' },
  ]);
  expect(read('block A ke ke ready').readings).toMatchObject([{ kind: 'agent', what: 'ready', block: 'A' }]);
});

test('spots behind a plot that was named first', () => {
  expect(reportsIn(read('মই দিছি ৩ নং: ৪ ৬ ৯ ১২ ৫'))).toMatchObject([
    { plots: ['3'], measures: { spotsCm: [4, 6, 9, 12, 5] } },
  ]);
});
