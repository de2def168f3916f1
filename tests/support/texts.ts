/** Texts that growers might send, of every kind, for conversations played at random. */
import * as fc from 'fast-check';

const WORK = ['cleared', 'soaked', 'ploughed', 'flooded', 'manured', 'puddled', 'levelled', 'seed soaked'];
const LATER_WORK = ['nursery sown', 'planted', 'gaps filled', 'weeded', 'topdressed', 'drained', 'harvested'];
const PLOTS = ['1', '2', '3', 'plot 2', 'u-1', '1 and 2', '1, 2 and 3', 'all', '7', ''];
const DAYS = [
  '',
  '',
  'today',
  'yesterday',
  '3 days ago',
  'on 5 march',
  'on 31 april',
  'on 30 march',
  "don't know when",
];
const MEASURES = ['', '', ', 12 cm', ' 8cm', ', 22 cm'];

const report = fc
  .tuple(
    fc.constantFrom(...WORK, ...LATER_WORK),
    fc.constantFrom(...PLOTS),
    fc.constantFrom(...DAYS),
    fc.constantFrom(...MEASURES),
  )
  .map(([work, plots, on, measure]) => `${work} ${plots} ${on}${measure}`.replace(/ +/g, ' ').trim());

const fixed = fc.constantFrom(
  'not ploughed 1',
  "haven't flooded 2 yet",
  'will plough 3 tomorrow',
  'plough plot 3!',
  'when plough plot 2?',
  'shall i puddle 1?',
  'started ploughing 1',
  'cleared, soaked and ploughed 2',
  'cleared 1 yesterday, ploughed 2',
  'plot 3 done',
  'next',
  'next 2',
  'dates',
  'dates 1',
  'why',
  'plots',
  'menu',
  'no water in plot 2',
  'the rats ate my seed',
  'no water until 20 march',
  'my name is Asha B',
  'language english',
  'join orrowe',
  'JOIN WRONG',
  'stop',
  'start',
  'forget me',
  'level 12 14 9',
  'flood upper 12 march',
);

const answer = fc.constantFrom(
  '1',
  '2',
  '3',
  '9',
  'yes',
  'no',
  'undo',
  'undo',
  '0',
  'plot 2',
  'Nala',
  '0.4 ha, 1 acre',
);

const nonsense = fc.oneof(
  fc.string({ maxLength: 200 }),
  fc.string({ unit: 'binary', maxLength: 60 }),
  fc.constantFrom(
    '',
    '?',
    '....',
    'x'.repeat(700),
    '🌾🌾',
    'ploughed ploughed ploughed',
    '12 cm',
    '{{which}}',
    '1 2 3 4 5',
  ),
);

/** One text: mostly of those that record, ask and answer, sometimes noise. */
export const anyText: fc.Arbitrary<string> = fc.oneof(
  { weight: 5, arbitrary: report },
  { weight: 3, arbitrary: fixed },
  { weight: 3, arbitrary: answer },
  { weight: 1, arbitrary: nonsense },
);

/** A text and the days that pass before it. */
export interface Sent {
  readonly text: string;
  readonly afterDays: number;
}

/** One to fifteen texts of one phone over some weeks. */
export const anyTexts: fc.Arbitrary<readonly Sent[]> = fc.array(
  fc.record({ text: anyText, afterDays: fc.constantFrom(0, 0, 0, 0, 1, 2, 5, 12) }),
  { minLength: 1, maxLength: 15 },
);
