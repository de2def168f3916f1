/** One language's messages and calendar, opened for saying. Takes data, reads no file, and never borrows a text from another language. */
import { createInstance, type i18n } from 'i18next';
import { z } from 'zod';
import { type Calendar, calendarShape } from './calendar.ts';
import { SayError } from './fault.ts';
import { hasStrayMarks, readTemplate, type Template } from './template.ts';

/** What `openCatalogue` takes: a language tag and the parsed JSON of its two files. */
export interface CatalogueData {
  readonly lang: string;
  readonly messages: unknown;
  readonly calendar: unknown;
}

/** A language ready for saying. */
export interface Catalogue {
  readonly lang: string;
  readonly calendar: Calendar;
  /** Every message by its key without the plural ending; in the file's order. */
  readonly messages: ReadonlyMap<string, MessageForms>;
  /** Plural categories of this language and the one that a count takes, as Intl has them. */
  readonly plurals: Intl.PluralRules;
  /** The template of a message in the plural form of `count`; throws a SayError when there is none. */
  template(key: string, count?: number): Template;
}

/** The written forms of one message by plural category; a message without plurals has the one form "". */
export type MessageForms = ReadonlyMap<string, string>;

const NAME = /^[A-Za-z][A-Za-z0-9-]*(?:_(?:zero|one|two|few|many|other))?$/;
const ENDING = /_(zero|one|two|few|many|other)$/;

type Tree = { readonly [name: string]: string | Tree };
const treeShape: z.ZodType<Tree> = z.lazy(() =>
  z.record(z.string().regex(NAME), z.union([z.string().min(1), treeShape])),
);

/** Opens one language: checks the data and keeps a private i18next for it; throws one SayError with every mistake found. */
export function openCatalogue({ lang, messages, calendar }: CatalogueData): Catalogue {
  const tree = checked(treeShape, messages, lang, 'messages');
  const days = checked(calendarShape, calendar, lang, 'calendar');
  const forms = gatherForms(tree);
  refuseStrayMarks(forms, lang);
  const rules = days.pluralsLike ?? lang;
  refuseUnknownPlurals(rules, lang);
  const template = templateFinder(lang, forms, startI18next(rules, tree));
  return { lang, calendar: days, messages: forms, plurals: new Intl.PluralRules(rules), template };
}

function checked<T>(shape: z.ZodType<T>, data: unknown, lang: string, file: string): T {
  const result = shape.safeParse(data);
  if (result.success) return result.data;
  const mistakes = result.error.issues.map((issue) => `${issue.path.join('.')} ${issue.message}`);
  throw new SayError('bad-catalogue', lang, file, mistakes);
}

function gatherForms(tree: Tree): Map<string, Map<string, string>> {
  const forms = new Map<string, Map<string, string>>();
  for (const [path, text] of leaves(tree, '')) {
    const ending = ENDING.exec(path);
    const key = ending === null ? path : path.slice(0, ending.index);
    const known = forms.get(key) ?? new Map<string, string>();
    forms.set(key, known.set(ending?.[1] ?? '', text));
  }
  return forms;
}

function leaves(tree: Tree, prefix: string): [string, string][] {
  return Object.entries(tree).flatMap(([name, below]): [string, string][] =>
    typeof below === 'string' ? [[prefix + name, below]] : leaves(below, `${prefix}${name}.`),
  );
}

function refuseStrayMarks(forms: ReadonlyMap<string, MessageForms>, lang: string): void {
  const stray = [...forms].filter(([, texts]) => [...texts.values()].some(hasStrayMarks)).map(([key]) => key);
  if (stray.length > 0) throw new SayError('bad-catalogue', lang, 'messages', stray);
}

/** Intl silently answers for its own default language when it does not know one; the machine's settings must not choose plurals. */
function refuseUnknownPlurals(rules: string, lang: string): void {
  const known =
    /^[a-z]{2,3}(-[A-Za-z0-9]+)*$/.test(rules) && Intl.PluralRules.supportedLocalesOf([rules]).length > 0;
  if (!known)
    throw new SayError('bad-catalogue', lang, 'calendar', [`pluralsLike: no plural rules for "${rules}"`]);
}

function startI18next(lng: string, tree: Tree): i18n {
  const instance = createInstance();
  void instance.init({
    lng,
    fallbackLng: false,
    load: 'currentOnly',
    initAsync: false,
    nsSeparator: false,
    resources: { [lng]: { translation: tree } },
    interpolation: { escapeValue: false },
    showSupportNotice: false,
  } as Parameters<i18n['init']>[0]);
  return instance;
}

/** Finds templates by i18next (nesting, plural form) and keeps each one once read. */
function templateFinder(
  lang: string,
  forms: ReadonlyMap<string, MessageForms>,
  instance: i18n,
): Catalogue['template'] {
  const bySource = new Map<string, Template>();
  const byKey = new Map<string, Template>();
  const read = (source: string): Template => {
    const known = bySource.get(source) ?? readTemplate(source);
    bySource.set(source, known);
    return known;
  };
  return (key, count) => {
    const kept = byKey.get(key);
    if (kept !== undefined) return kept;
    const known = forms.get(key);
    if (known === undefined) throw new SayError('missing-key', lang, key);
    if (known.has('')) {
      const template = read(instance.t(key, { skipInterpolation: true }));
      byKey.set(key, template);
      return template;
    }
    if (count === undefined) throw new SayError('missing-value', lang, key, ['count']);
    const source = instance.t(key, { count, skipInterpolation: true, defaultValue: '' });
    if (source === '') throw new SayError('missing-plural', lang, key, [String(count)]);
    return read(source);
  };
}
