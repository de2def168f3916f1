/** Fields of a request as they were sent. */

/** Form fields; a name that came several times has a list. */
export type Form = Readonly<Record<string, string | readonly string[] | undefined>>;

/** The field's text; empty when it is missing or came several times. */
export function textOf(value: Form[string]): string {
  return typeof value === 'string' ? value : '';
}
