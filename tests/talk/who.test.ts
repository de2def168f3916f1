import { describe, expect, test } from 'vitest';
import type { Effect } from '../../src/talk/effect.ts';
import type { Person, PlotWorld } from '../../src/talk/world.ts';
import { ASHA, ASHAS, type Kept, phone, plotOf, remindOn } from '../support/small-phone.ts';

const BRAM: Person = { id: 'bram', name: 'Bram', lang: 'en', role: 'grower' };
const of = ({ id }: Person, plot: PlotWorld): PlotWorld => ({ ...plot, ownerId: id });

/** Asha has plots 1 and 2, Bram plot 3, on one phone. */
const SHARED: Kept = {
  ...ASHAS,
  people: [ASHA, BRAM],
  plots: [of(ASHA, plotOf('1')), of(ASHA, plotOf('2')), of(BRAM, plotOf('3'))],
};

const doings = (came: { readonly effects: readonly { readonly do: string }[] }) =>
  came.effects.map((effect) => effect.do);

describe('several growers on one phone', () => {
  test.each([
    'next',
    'dates',
    'plots',
    'cleared',
    'cleared all',
    'no water',
    'not ploughed',
    'my name is Ashanti',
    'forget me',
    'phone',
  ])('"%s" hangs on who texts: that is asked, and nothing is recorded', (text) => {
    const came = phone(SHARED).text(text);
    expect(came.said).toMatch(/^Who is texting\? 1 Asha\. 2 Bram\./);
    expect(doings(came)).toEqual(['say']);
  });

  test.each(['cleared 1', 'cleared 3 yesterday', 'dates 2', 'menu', 'stop', 'start', 'cleared 1 and 3'])(
    '"%s" is clear whoever texts it',
    (text) => expect(phone(SHARED).text(text).said).not.toMatch(/Who is texting/),
  );

  test('the answer goes on with what was texted, for the plots of that person', () => {
    const one = phone(SHARED);
    one.text('cleared');
    expect(one.text('2')).toMatchObject({ recorded: [{ seasonId: 's3', activity: 'clear' }] });
    expect(one.standing('1')).toEqual([]);
  });

  test('a trouble keeps the words that told it', () => {
    const one = phone(SHARED);
    one.text('no water since sunday');
    expect(one.text('1').effects).toContainEqual(
      expect.objectContaining({ do: 'note-trouble', seasonId: 's1', words: 'no water since sunday' }),
    );
  });

  test('"all" is all of who texts', () => {
    const one = phone(SHARED);
    one.text('cleared all');
    expect(one.text('1').recorded.map(({ seasonId }) => seasonId)).toEqual(['s1', 's2']);
  });

  test('a name answers too, and changes who texts', () => {
    const one = phone(SHARED);
    one.text('next');
    expect(one.text('bram').said).toMatch(/^Plot 3: clear/);
    expect(one.text('next').said).toMatch(/^Plot 3: clear/);
    expect(one.text('Asha!').said).toMatch(/Asha is texting/);
    expect(one.text('plots').said).toMatch(/Plot 1.*Plot 2/);
    expect(one.text('my name is Bram').said).toMatch(/Bram is texting/);
    expect(one.kept().people).toEqual(SHARED.people);
  });

  test('it is asked once a session, and anew on another day', () => {
    const one = phone(SHARED);
    one.text('next');
    one.text('1');
    expect(one.text('next').said).not.toMatch(/Who is texting/);
    expect(one.text('cleared 3').recorded).toHaveLength(1);
    one.on('2027-03-11');
    expect(one.text('next').said).toMatch(/^Who is texting\?/);
  });

  test('a number that is none of theirs asks again; another text lets the question go', () => {
    const one = phone(SHARED);
    one.text('next');
    expect(one.text('3').keys).toEqual(['choice.not-among']);
    expect(one.text('cleared 3').recorded).toHaveLength(1);
    expect(one.text('1').keys).toEqual(['choice.no-question']);
  });

  test('FORGET ME forgets the one who texted, and nobody else', () => {
    const one = phone(SHARED);
    one.text('forget me');
    expect(one.text('2').said).toMatch(/^Remove your name/);
    expect(one.text('1').effects).toContainEqual({ do: 'forget', personId: 'bram' });
    expect(one.kept().people).toEqual([ASHA]);
    expect(one.text('next').said).toMatch(/^Plot/);
  });

  test('a new name is that of who texted', () => {
    const one = phone(SHARED);
    one.text('my name is Ashanti');
    expect(one.text('1').effects).toContainEqual({ do: 'rename', personId: 'asha', name: 'Ashanti' });
  });

  test('each is spoken to in the own language, where plots tell whose they are', () => {
    const mixed: Kept = { ...SHARED, people: [ASHA, { ...BRAM, lang: 'fr' }] };
    const langOf = (effects: readonly Effect[]) => effects.find((effect) => effect.do === 'say')?.lang;
    const one = phone(mixed);
    expect(langOf(one.text('cleared 1').effects)).toBe('en');
    expect(langOf(one.text('cleared 3').effects)).toBe('fr');
    const ofBram = one.kept().reminders.filter(({ seasonId }) => seasonId === 's3');
    const [first] = ofBram;
    expect(first).toBeDefined();
    expect(langOf(remindOn(one.kept(), ofBram, first?.on ?? 0).effects)).toBe('fr');
  });

  test('ten people do not fit into one question: the tenth texts a name', () => {
    const people = Array.from({ length: 10 }, (_, at) => ({
      ...BRAM,
      id: `b${at}`,
      name: `Bram ${'abcdefghij'[at]}`,
    }));
    const plots = people.map((person, at) => of(person, plotOf(String(at + 1))));
    const one = phone({ ...ASHAS, people, plots });
    expect(one.text('next')).toMatchObject({ keys: expect.arrayContaining(['who.ask-or-name']) });
    expect(one.text('bram j').said).toMatch(/^Plot 10: /);
  });

  test('nobody is asked on a phone of one', () => {
    expect(phone().text('next').said).toMatch(/^Plot/);
  });
});
