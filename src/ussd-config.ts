/** Settings of numbered screens, read from the environment: how the carrier's requests look, how it wants answers, the secret. */
import { z } from 'zod';
import { COMMON_SHAPE, type UssdShape } from './web/ussd/shape.ts';

export type UssdReading =
  | { readonly ok: true; readonly ussd: UssdShape }
  | { readonly ok: false; readonly mistakes: readonly string[] };

const field = z
  .string()
  .regex(/^[A-Za-z][\w.-]*$/, 'must be the name of a field: letters, digits, "_", "-" and "."');
/** A field that a carrier may not have; "-" says so. */
const fieldOrNone = z
  .string()
  .regex(/^([A-Za-z][\w.-]*|-)$/, 'must be the name of a field, or - where there is none')
  .transform((name) => (name === NONE ? null : name));
const word = z.string().max(20, 'must have at most 20 signs');

/** Longer secrets are not worth more; shorter ones are guessed. */
const LEAST_SECRET = 16;

/** What stands for a field that a carrier does not have. */
const NONE = '-';

const { fields, answer } = COMMON_SHAPE;
const [SECRET_FIELD, TEXT_FIELD, STATE_FIELD] = ['x-ussd-secret', 'message', 'state'];

const schema = z.object({
  /** All inputs so far with `*` between them, or the newest alone. */
  BUNDLINE_USSD_INPUTS: z.enum(['joined', 'latest'], 'must be joined or latest').default('joined'),
  BUNDLINE_USSD_BODY: z.enum(['form', 'json'], 'must be form or json').default('form'),
  BUNDLINE_USSD_PHONE_FIELD: field.default(fields.phone),
  BUNDLINE_USSD_SESSION_FIELD: fieldOrNone.default(fields.session),
  BUNDLINE_USSD_INPUT_FIELD: field.default(fields.input),
  BUNDLINE_USSD_HIT_FIELD: fieldOrNone.default(fields.hit),
  BUNDLINE_USSD_CODE: z
    .string()
    .regex(/^\*[\d*]{1,20}\d#?$/, 'must be what people dial, like *123#')
    .transform((code) => code.replace(/#$/, ''))
    .optional(),
  BUNDLINE_USSD_ANSWER: z.enum(['text', 'json'], 'must be text or json').default('text'),
  BUNDLINE_USSD_GO_ON: word.default(answer.goOn),
  BUNDLINE_USSD_END: word.default(answer.end),
  BUNDLINE_USSD_TEXT_FIELD: field.default(TEXT_FIELD),
  BUNDLINE_USSD_STATE_FIELD: field.default(STATE_FIELD),
  BUNDLINE_USSD_SECRET: z.string().min(LEAST_SECRET, `must have at least ${LEAST_SECRET} signs`).optional(),
  BUNDLINE_USSD_SECRET_FIELD: field.default(SECRET_FIELD),
});

/** The names of these settings. */
export const USSD_SETTINGS = Object.keys(schema.shape);

const REQUEST_FIELDS = {
  BUNDLINE_USSD_PHONE_FIELD: fields.phone,
  BUNDLINE_USSD_INPUT_FIELD: fields.input,
  BUNDLINE_USSD_SESSION_FIELD: fields.session ?? NONE,
  BUNDLINE_USSD_HIT_FIELD: fields.hit ?? NONE,
  BUNDLINE_USSD_SECRET_FIELD: SECRET_FIELD,
};
const ANSWER_FIELDS = { BUNDLINE_USSD_TEXT_FIELD: TEXT_FIELD, BUNDLINE_USSD_STATE_FIELD: STATE_FIELD };

/** Reads the settings from variables that are set; no value is shown in a mistake: it may be the secret. */
export function readUssdConfig(given: Readonly<Record<string, string | undefined>>): UssdReading {
  const read = schema.safeParse(given);
  const single = read.success
    ? []
    : read.error.issues.map((issue) => `${String(issue.path[0])} ${issue.message}`);
  const same = [...sameField(given, REQUEST_FIELDS), ...sameField(given, ANSWER_FIELDS)];
  const mistakes = [...single, ...sameWord(given), ...same];
  if (!read.success || mistakes.length > 0) return { ok: false, mistakes };
  return { ok: true, ussd: shapeOf(read.data) };
}

/** A carrier that cannot tell going on from ending keeps every session open, or none. */
function sameWord(given: Readonly<Record<string, string | undefined>>): readonly string[] {
  const { BUNDLINE_USSD_GO_ON: goOn = answer.goOn, BUNDLINE_USSD_END: end = answer.end } = given;
  return goOn === end ? ['BUNDLINE_USSD_END must be another word than BUNDLINE_USSD_GO_ON'] : [];
}

/** Two things cannot come, or leave, in one field. `usual` has the settings with what they are when not given. */
function sameField(
  given: Readonly<Record<string, string | undefined>>,
  usual: Readonly<Record<string, string>>,
): readonly string[] {
  const named = Object.entries(usual).map(([setting, name]) => [setting, given[setting] ?? name] as const);
  return named.flatMap(([setting, name], index) => {
    const [first] = named.slice(0, index).find(([, other]) => other === name && name !== NONE) ?? [];
    return first === undefined ? [] : [`${setting} must name another field than ${first}`];
  });
}

function shapeOf(settings: z.infer<typeof schema>): UssdShape {
  const { BUNDLINE_USSD_GO_ON: goOn, BUNDLINE_USSD_END: end, BUNDLINE_USSD_SECRET: value } = settings;
  const { BUNDLINE_USSD_TEXT_FIELD: text, BUNDLINE_USSD_STATE_FIELD: state } = settings;
  return {
    inputs: settings.BUNDLINE_USSD_INPUTS,
    body: settings.BUNDLINE_USSD_BODY,
    fields: {
      phone: settings.BUNDLINE_USSD_PHONE_FIELD,
      session: settings.BUNDLINE_USSD_SESSION_FIELD,
      input: settings.BUNDLINE_USSD_INPUT_FIELD,
      hit: settings.BUNDLINE_USSD_HIT_FIELD,
    },
    code: settings.BUNDLINE_USSD_CODE ?? null,
    answer:
      settings.BUNDLINE_USSD_ANSWER === 'text'
        ? { as: 'text', goOn, end }
        : { as: 'json', text, state, goOn, end },
    secret: value === undefined ? null : { name: settings.BUNDLINE_USSD_SECRET_FIELD, value },
  };
}
