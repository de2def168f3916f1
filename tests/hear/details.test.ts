import { expect, test } from 'vitest';
import { hearDetails } from '../../src/hear/hear-details.ts';
import { ENGLISH } from './languages.ts';

const details = (text: string) => hearDetails(text, ENGLISH.lexicon);

test.each([
  ['0.4 ha and 1 acre', [0.4, 1], [0.4, 0.4047]],
  ['2 plots', [2], [null]],
  ['half acre', [0.5], [0.2023]],
  ['half an acre', [0.5], [0.2023]],
  ['1/2 acre', [0.5], [0.2023]],
  ['one and a half acres', [1.5], [0.607]],
  ['1 and half acre', [1.5], [0.607]],
  ['4000 m2', [4000], [0.4]],
  ['২ একর', [2], [null]],
  ['twenty five', [25], [null]],
  ['0.3 and 0.5', [0.3, 0.5], [null, null]],
  ['none', [], []],
])('figures of "%s"', (text, numbers, areasHa) => expect(details(text)).toMatchObject({ numbers, areasHa }));

test.each([
  ['by hand with hoes', 'hoe'],
  ['oxen', 'animals'],
  ['power tiller', 'two-wheel'],
  ['two wheel tractor', 'two-wheel'],
  ['zero tillage', 'none'],
  ['hoe or oxen', null],
  ['yes', null],
])('tool of "%s"', (text, tillage) => expect(details(text).tillage).toBe(tillage));

test.each([
  ['english', 'en'],
  ['Kiswahili please', 'sw'],
  ['français', 'fr'],
  ['english or french', null],
])('language of "%s"', (text, language) => expect(details(text).language).toBe(language));

test.each([
  ['3', ['3']],
  ['plot 3', ['3']],
  ['1 and 2', ['1', '2']],
  ['A-17', ['A-17']],
  ['all', ['all']],
  ['plot 3 please', ['3']],
  ['ploughed 3', []],
  ['3 men', []],
  ['3 plots', []],
])('plots of "%s"', (text, plots) => expect(details(text).plots).toEqual(plots));
