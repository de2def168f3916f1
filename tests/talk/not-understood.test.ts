import { describe, expect, test } from 'vitest';
import { day } from '../support/seasons.ts';
import { ASHAS, type Came, type Kept, take } from '../support/small-phone.ts';

const TODAY = day('2027-03-10');

function takeAll(texts: readonly string[]): readonly Came[] {
  let kept: Kept = ASHAS;
  return texts.map((text) => {
    const came = take(kept, text, TODAY);
    kept = came.after;
    return came;
  });
}

const noted = (came: Came) => came.effects.filter((effect) => effect.do === 'note-trouble');

describe('texts that could not be read', () => {
  test('the second in a row goes to the agent with its words, and the grower is told', () => {
    const [first, second] = takeAll(['xqzt mbo', 'mbo xqzt!']);
    expect(noted(first!)).toEqual([]);
    expect(noted(second!)).toMatchObject([{ what: 'not-understood', words: 'mbo xqzt!' }]);
    expect(second!.said).toMatch(/will call you/);
  });

  test.each([
    ['next', 'what was understood between them begins anew'],
    ['ploughed 1 on 31 april', 'a day that cannot be was understood'],
  ])('"%s": %s', (between) => {
    expect(takeAll(['xqzt mbo', between, 'mbo xqzt']).flatMap(noted)).toEqual([]);
  });
});
