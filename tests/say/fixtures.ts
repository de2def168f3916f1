/** Small catalogues for the tests of saying: a source, a language with many plurals, and one outside the GSM alphabet. */
import { type Catalogue, openCatalogue } from '../../src/say/catalogue.ts';

export const ENGLISH_CALENDAR = {
  language: 'English',
  draft: false,
  alphabet: 'gsm7',
  weekdays: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'],
  months: ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'],
  day: '{weekday} {day} {month}',
  list: { comma: ', ', and: ' and ' },
  decimal: '.',
  sendWords: ['send', 'text'],
};

export const ENGLISH_MESSAGES = {
  done: 'Plot {{plot}} {{activity}} {{day}}.',
  depth: 'Depth {{depthCm}} cm.',
  next: 'Next: {{activity}} by {{by}}.',
  lots: 'Plots {{plots}}.',
  waiting_one: '{{count}} plot waits for {{name}}.',
  waiting_other: '{{count}} plots wait for {{name}}.',
  alone_one: 'One plot.',
  alone_other: '{{count}} plots.',
  menu: 'Send NEXT, DATES or PLOUGHED {{plot}}.',
  say: '{{text}}',
  activity: { plough: 'ploughed', 'rough-level': 'levelled roughly' },
};

export const FRENCH_CALENDAR = {
  language: 'français',
  draft: true,
  alphabet: 'gsm7',
  weekdays: ['lun', 'mar', 'mer', 'jeu', 'ven', 'sam', 'dim'],
  months: ['janv', 'fevr', 'mars', 'avr', 'mai', 'juin', 'juil', 'aout', 'sept', 'oct', 'nov', 'dec'],
  day: '{weekday} {day} {month}',
  list: { comma: ', ', and: ' et ' },
  decimal: ',',
  sendWords: ['envoyez'],
};

export const FRENCH_MESSAGES = {
  done: 'Parcelle {{plot}} : {{activity}} {{day}}.',
  depth: 'Profondeur {{depthCm}} cm.',
  next: 'Ensuite : {{activity}} avant {{by}}.',
  lots: 'Parcelles {{plots}}.',
  waiting_one: '{{count}} parcelle attend {{name}}.',
  waiting_many: '{{count}} de parcelles attendent {{name}}.',
  waiting_other: '{{count}} parcelles attendent {{name}}.',
  alone_one: '{{count}} parcelle.',
  alone_many: '{{count}} de parcelles.',
  alone_other: '{{count}} parcelles.',
  menu: 'Envoyez SUITE, DATES ou LABOUR {{plot}}.',
  say: '{{text}}',
  activity: { plough: 'labour', 'rough-level': 'planage grossier' },
};

export const BENGALI_CALENDAR = {
  ...ENGLISH_CALENDAR,
  language: 'বাংলা',
  alphabet: 'ucs2',
  weekdays: ['সোম', 'মঙ্গল', 'বুধ', 'বৃহ', 'শুক্র', 'শনি', 'রবি'],
  months: ['জানু', 'ফেব', 'মার্চ', 'এপ্রি', 'মে', 'জুন', 'জুল', 'আগ', 'সেপ', 'অক্টো', 'নভে', 'ডিসে'],
  list: { comma: ', ', and: ' ও ' },
  sendWords: ['লিখুন'],
};

export function english(
  messages: unknown = ENGLISH_MESSAGES,
  calendar: unknown = ENGLISH_CALENDAR,
): Catalogue {
  return openCatalogue({ lang: 'en', messages, calendar });
}

export function french(messages: unknown = FRENCH_MESSAGES, calendar: unknown = FRENCH_CALENDAR): Catalogue {
  return openCatalogue({ lang: 'fr', messages, calendar });
}

export function bengali(messages: unknown): Catalogue {
  return openCatalogue({ lang: 'bn', messages, calendar: BENGALI_CALENDAR });
}
