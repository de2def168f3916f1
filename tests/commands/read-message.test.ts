import { expect, test } from 'vitest';
import { readMessage } from '../../src/commands/read-message.ts';
import { loadCatalogue } from '../../src/commands/sheet.ts';
import { openCatalogue } from '../../src/say/catalogue.ts';

const { calendar } = loadCatalogue('en');
const messages = { choose: 'Too old (very). Text NEXT {{plot}} to choose {{what}}!', plain: 'Send 1.' };
const catalogue = openCatalogue({ lang: 'en', messages, calendar });

test('finds a message among others and gives its values', () => {
  const text = 'Plot 3 done. Too old (very). Text NEXT 12 to choose a way out! More.';
  expect(readMessage('choose', text, catalogue)).toEqual({ plot: '12', what: 'a way out' });
  expect(readMessage('plain', 'Send 1.', catalogue)).toEqual({});
});

test('gives null for another text, and reads a full stop as a full stop', () => {
  expect(readMessage('choose', 'Too old very. Text NEXT 12 to choose a way out!', catalogue)).toBeNull();
  expect(readMessage('plain', 'Send 12', catalogue)).toBeNull();
});
