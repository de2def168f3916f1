/** How verbs stand, and the marks and stages that words carry: the names that word lists and readers share. Knows no words. */

/**
 * How a verb can stand: `same` is a form that is both plain and past ("cut"); `not` and `future` carry it inside the word;
 * `present` is under way or to come ("je laboure"), `open` under way or done ("করছি"), and both are asked about; `going` is under
 * way, and never the object of another verb; a `linking` form says by itself neither that work was done nor that it was not, and goes
 * on as the verb that it is joined to: the one before it ("na kuvuruga"), or behind it where verbs come last ("করে").
 */
export const FORMS = [
  'done',
  'plain',
  'doing',
  'naming',
  'same',
  'not',
  'future',
  'present',
  'going',
  'linking',
  'open',
] as const;
export type Form = (typeof FORMS)[number];

/**
 * Forms that carry more inside the word: the doer is somebody else, who has done it, may still be doing it (`theirOpen`) or is
 * at it (`theirGoing`); it orders or asks; it sets a condition.
 */
export const TURNED = {
  theirs: { form: 'done', mark: 'others' },
  theirOpen: { form: 'open', mark: 'others' },
  theirGoing: { form: 'going', mark: 'others' },
  order: { form: 'plain', mark: 'please' },
  condition: { form: 'plain', mark: 'if' },
} as const satisfies Record<string, { form: Form; mark: string }>;
export type Turned = keyof typeof TURNED;

/** All forms that patterns make. */
export const GROWN = [
  ...FORMS,
  'theirs',
  'theirOpen',
  'theirGoing',
  'order',
  'condition',
] as const satisfies readonly (Form | Turned)[];

/** What turns the meaning of a clause round, or tells whose doing it was. */
export const MARKS = [
  'not',
  'future',
  'want',
  'need',
  'question',
  'doubt',
  'if',
  'others',
  'self',
  'perfect',
  'please',
  'before',
  'towards',
  'along',
  'asker',
  'nothing',
  'elsewhere',
  /** People who work for the grower: what they did is the grower's. */
  'ours',
] as const;
export type Mark = (typeof MARKS)[number];

/** How far work has come. */
export const STAGES = ['started', 'starting', 'finished', 'partly', 'nearly', 'stopped'] as const;

/** What a helping verb says by its form alone, with work of its own or without. */
export const FORM_SAYS: Partial<Record<Form | Turned, Mark>> = {
  not: 'not',
  future: 'future',
  theirs: TURNED.theirs.mark,
  theirOpen: TURNED.theirOpen.mark,
  theirGoing: TURNED.theirGoing.mark,
  order: TURNED.order.mark,
  condition: TURNED.condition.mark,
};
