import { describe, expect, test } from 'vitest';
import { NOBODY, phone } from '../support/small-phone.ts';

/** Right answers in order: each step's question, and what answers it. */
const STEPS = [
  ['consent', 'JOIN ORROWE'],
  ['name', 'yes'],
  ['plots', 'Nala Oduya'],
  ['areas', '2'],
  ['block', '0.4 ha and 1 acre'],
  ['tillage', '2'],
  ['variety', 'oxen'],
  ['sure', '135'],
] as const;

type StepName = (typeof STEPS)[number][0];

/** A stranger who has come to this question. */
function at(step: StepName) {
  const nala = phone(NOBODY);
  for (const [name, text] of STEPS) {
    nala.text(text);
    if (name === step) break;
  }
  return nala;
}

function stepOf(nala: ReturnType<typeof at>): string {
  const standing = nala.kept().state?.standing;
  return standing?.at === 'join' ? standing.step : 'none';
}

test.each(STEPS)('comes to the question for %s', (step) => {
  expect(stepOf(at(step))).toBe(step);
});

const WRONG: readonly (readonly [StepName, readonly string[]])[] = [
  ['consent', ['what is this', '3', 'ploughed 1', '', '0', 'maybe']],
  ['name', ['123', 'N', 'ploughed 1', '', 'one two three four five', 'x'.repeat(31)]],
  ['plots', ['many', '0', '10', '1.5', '-1', '']],
  ['areas', ['0.4', '0.4 0.3 0.2', 'big', '0 and 0.3', '0.4 ha and 30 ha', '']],
  ['block', ['9', '0', 'somewhere', '']],
  ['tillage', ['7', '0', 'with friends', '']],
  ['variety', ['dont know', '59', '241', '120.5', '']],
  ['sure', ['3', 'hm', '']],
];

test.each(WRONG.flatMap(([step, texts]) => texts.map((text) => [step, text] as const)))(
  '%s: "%s" is asked again and nothing is kept',
  (step, text) => {
    const nala = at(step);
    const { effects } = nala.text(text);
    expect(stepOf(nala)).toBe(step);
    expect(effects.map((effect) => effect.do)).toEqual(['say']);
  },
);

test.each(WRONG)('%s: wrong answers first do not spoil the right one', (step, texts) => {
  const nala = at(step);
  for (const text of texts) nala.text(text);
  const index = STEPS.findIndex(([name]) => name === step);
  for (const [, text] of STEPS.slice(index + 1)) nala.text(text);
  nala.text('yes');
  expect(nala.kept().people).toMatchObject([{ name: 'Nala Oduya' }]);
  expect(nala.kept().plots.map(({ season: { areaHa } }) => areaHa)).toEqual([0.4, 0.405]);
});

describe('at the end', () => {
  test('yes joins with all that was told, and the words of consent as texted', () => {
    const nala = phone(NOBODY);
    for (const [name, text] of STEPS) nala.text(name === 'name' ? 'Yes please' : text);
    const { effects } = nala.text('1');
    const way = {
      water: 'irrigated',
      tillage: 'animals',
      establishment: 'transplant',
      nursery: 'wet-bed',
      ripens: 'by-days',
    };
    const plot = { blockId: 'lower', way, varietyDays: 135 };
    expect(effects).toContainEqual({
      do: 'join',
      joiner: {
        name: 'Nala Oduya',
        lang: 'en',
        consent: 'Yes please',
        plots: [
          { ...plot, number: '1', areaHa: 0.4 },
          { ...plot, number: '2', areaHa: 0.405 },
        ],
      },
    });
  });

  test.each(['no', '2'])('"%s" keeps nothing and ends it', (text) => {
    const nala = at('sure');
    expect(nala.text(text)).toMatchObject({ keys: ['join.dropped'] });
    expect(nala.kept()).toMatchObject({ people: [], plots: [], state: null });
    expect(nala.text('yes').keys).toEqual(['menu.stranger']);
  });

  test('0 takes the commonest class of varieties', () => {
    const nala = at('variety');
    nala.text('0');
    nala.text('yes');
    expect(nala.kept().plots[0]?.season.varietyDays).toBe(120);
  });
});

test.each(['no', '2'])('refused with "%s": nothing is kept and the code is asked for again', (text) => {
  const nala = at('consent');
  expect(nala.text(text)).toMatchObject({ keys: ['join.refused'] });
  expect(nala.kept()).toMatchObject({ people: [], state: null });
});

test.each([
  ['hello', 'menu.stranger'],
  ['join', 'menu.stranger'],
  ['ploughed 1', 'menu.stranger'],
  ['undo', 'menu.stranger'],
  ['JOIN WRONG', 'join.wrong-code'],
  ['JOIN ORROW', 'join.wrong-code'],
])('a stranger who texts "%s" is told %s', (text, key) => {
  const nala = phone(NOBODY);
  expect(nala.text(text)).toMatchObject({ keys: [key], recorded: [] });
  expect(nala.kept().state).toBeNull();
});

test('the code again begins anew', () => {
  const nala = at('block');
  nala.text('join orrowe');
  expect(stepOf(nala)).toBe('consent');
});

test('an unfinished joining is gone after some days', () => {
  const nala = at('block');
  nala.on('2027-03-12');
  nala.text('9');
  expect(stepOf(nala)).toBe('block');
  nala.on('2027-03-20');
  expect(nala.text('1').keys).toEqual(['menu.stranger']);
});
