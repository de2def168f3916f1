import { describe, expect, test } from 'vitest';
import { ACTIVITIES, type Activity } from '../../src/agronomy/season.ts';
import { hear } from '../../src/hear/hear.ts';
import { LANGUAGES, reportsIn, TODAY } from './languages.ts';

const FRENCH = LANGUAGES.find(({ lang }) => lang === 'fr')!;
const heard = (text: string) => hear(text, FRENCH.lexicon, TODAY);
const reports = (text: string) => reportsIn(heard(text));

/** How each is said: done, in the infinitive, as a noun. */
const SAID: Readonly<Record<Activity, readonly [string, string, string]>> = {
  clear: ['nettoyé', 'nettoyer', 'nettoyage'],
  soak: ['trempé', 'tremper', 'trempage'],
  plough: ['labouré', 'labourer', 'labour'],
  'rough-level': ['préplané', 'préplaner', 'préplanage'],
  flood: ['inondé', 'inonder', 'mise en eau'],
  manure: ['mis le fumier dans', 'mettre le fumier dans', 'épandage du fumier dans'],
  puddle: ['hersé', 'herser', 'mise en boue'],
  basal: ["mis l'engrais de fond dans", "mettre l'engrais de fond dans", 'fumure de fond'],
  level: ['plané', 'planer', 'planage'],
  pregerminate: ['prégermé la semence pour', 'prégermer la semence pour', 'prégermination pour'],
  'sow-nursery': ['semé la pépinière pour', 'semer la pépinière pour', 'semis de la pépinière pour'],
  transplant: ['repiqué', 'repiquer', 'repiquage'],
  'sow-direct': ['semé à la volée', 'semer à la volée', 'semis direct'],
  'gap-fill': ['regarni', 'regarnir', 'regarnissage'],
  weed: ['désherbé', 'désherber', 'désherbage'],
  topdress: ["mis l'urée dans", "mettre l'urée dans", "épandage de l'urée dans"],
  drain: ['vidangé', 'vidanger', 'vidange'],
  harvest: ['récolté', 'récolter', 'récolte'],
};

const plain = (text: string) => text.normalize('NFD').replace(/[\u0300-\u036f]/g, '');

describe.each(ACTIVITIES)('%s', (activity) => {
  const fill = (template: string) =>
    ([0, 1, 2] as const).reduce((text, i) => text.replace(`{${i}}`, SAID[activity][i]), template);

  test.each(["j'ai {0} la parcelle 3 hier", 'hier on a {0} p3', '{0} p3 hier', 'p3 {2} fini hier'])(
    'done: %s',
    (template) => {
      const text = fill(template);
      for (const one of [text, plain(text), plain(text).toUpperCase()])
        expect(heard(one).readings, one).toMatchObject([
          { kind: 'report', activity, stage: 'finished', plots: ['3'], on: '2027-03-09' },
        ]);
    },
  );

  test.each([
    "je n'ai pas {0} p3",
    'pas encore {0} la parcelle 3',
    "on n'a pas pu {1} p3",
    "j'ai oublié de {1} p3",
    'il faut {1} p3',
    '{2} p3 pas encore fait',
    "on n'a jamais {0} p3",
  ])('not done: %s', (template) => {
    for (const one of [fill(template), plain(fill(template))])
      expect(heard(one).readings, one).toMatchObject([{ kind: 'not-done', activity, plots: ['3'] }]);
  });

  test.each(['je vais {1} p3 demain', 'demain on va {1} p3', '{2} p3 prévu demain', 'je veux {1} p3 demain'])(
    'to come: %s',
    (template) => {
      for (const one of [fill(template), plain(fill(template))])
        expect(heard(one).readings, one).toMatchObject([{ kind: 'intend', activity, on: '2027-03-11' }]);
    },
  );

  test.each(['quand {1} p3?', 'est-ce que je peux {1} p3', 'faut-il {1} p3', 'dois-je {1} la parcelle 3'])(
    'asked: %s',
    (template) => {
      for (const one of [fill(template), plain(fill(template))])
        expect(heard(one).readings, one).toMatchObject([{ kind: 'ask', about: 'dates', activity }]);
    },
  );

  test.each([
    'veuillez {1} p3',
    'vous devez {1} p3',
    "n'oubliez pas de {1} p3",
    'viens {1} p3',
    'mon voisin a {0} p3 hier',
    "on m'a dit qu'ils ont {0} p3",
    'il paraît que p3 est {0}',
    'peut-être {0} p3',
    'si on a {0} p3',
    'Awa a {0} p3',
    "l'an dernier on a {0} p3",
    'on a commandé un tracteur pour {1} p3',
  ])('no report: %s', (template) => {
    for (const one of [fill(template), plain(fill(template))]) expect(reports(one), one).toEqual([]);
  });
});

describe('numbers, plots and joined words', () => {
  test.each([
    ['labouré parcelles un, deux et cinq', ['1', '2', '5']],
    ['labouré la quatre', ['4']],
    ['labouré les parcelles vingt et un et vingt-deux', ['21', '22']],
    ['labouré parcelle ٣', ['3']],
    ['labouré p3', ['3']],
    ['labouré parc3', ['3']],
    ['labouré parcelle3', ['3']],
    ['labouré 1-3', ['1', '2', '3']],
    ['labouré de la 1 à la 3', ['1', '2', '3']],
    ['labouré toutes les parcelles', ['all']],
    ['labouré partout', ['all']],
    ['labouré la parcelle A-17', ['A-17']],
    ['labouré la 3eme', ['3']],
    ['labouré laparcelle 3', ['3']],
    ['labouré p3 avec 2 boeufs', ['3']],
    ['labouré p3 à 9h30', ['3']],
    ['labouré p3 en 2 jours', ['3']],
    ['labourré la parcelel 3', ['3']],
    ["j'ai labnuré la 3", ['3']],
  ])('%s', (text, plots) => expect(reports(text)).toMatchObject([{ activity: 'plough', plots }]));

  test.each(['labouré les deux', 'labouré les 2', 'labouré 2 parcelles', 'labouré tout sauf la 3'])(
    '%s: which ones is asked',
    (text) => expect(heard(text).unclear?.why).toBe('which-plot'),
  );
});

describe('days', () => {
  test.each([
    ['labouré p3 le 8 mars', '2027-03-08'],
    ['labouré p3 le 1er mars', '2027-03-01'],
    ['labouré p3 le 5/3', '2027-03-05'],
    ['labouré p3 le 28 fév', '2027-02-28'],
    ['labouré p3 lundi', '2027-03-08'],
    ['labouré p3 mercredi dernier', '2027-03-03'],
    ['labouré p3 jeudi', '2027-03-04'],
    ['labouré p3 dimanche 7', '2027-03-07'],
    ['labouré p3 il y a 3 jours', '2027-03-07'],
    ['labouré p3 avant-hier', '2027-03-08'],
    ["labouré p3 aujourd'hui", '2027-03-10'],
    ['labouré p3 je ne sais plus quand', null],
  ])('%s', (text, on) => expect(reports(text)).toMatchObject([{ plots: ['3'], on }]));

  test.each([
    ['labouré p3 le 31 avril', 'impossible-date'],
    ['labouré p3 le 30 février', 'impossible-date'],
    ['je vais labourer p3 le 31/4', 'impossible-date'],
    ['labouré p3 demain', 'future-date'],
    ['labouré p3 vendredi prochain', 'future-date'],
    ['labouré p3 la semaine dernière', 'which-day'],
    ['labouré p3 lundi 9', 'which-day'],
    ['labouré p3 lundi ou mardi', 'which-day'],
  ])('%s is asked back: %s', (text, why) => expect(heard(text).unclear?.why).toBe(why));
});

describe('words that differ by a letter', () => {
  test.each(['purée 3', 'plan 3', 'plaine 3', 'laboratoire 3', 'semaine 3', 'récolement 3', 'taxi 3'])(
    '%s',
    (text) => expect(reports(text)).toEqual([]),
  );
});

describe('texts about the line itself', () => {
  test.each([
    'arrêt',
    'ARRET',
    'stop',
    'Stopper!',
    'désabonner',
    'stop svp',
    'je ne veux plus recevoir de messages',
  ])('%s', (text) => expect(heard(text).readings).toMatchObject([{ kind: 'account', what: 'stop' }]));
  test.each([
    'arrêt du labour p3',
    'quand arrêter l’eau',
    "arrêter l'eau de la 3",
    'le tracteur est à l’arrêt',
  ])('"%s" stops nothing', (text) =>
    expect(heard(text).readings.filter(({ kind }) => kind === 'account')).toEqual([]),
  );
});
