/** One message with its values written in one language. Refuses a message whose values and placeholders do not agree. */
import { dayText, listText, numberText } from './calendar.ts';
import type { Catalogue } from './catalogue.ts';
import { SayError } from './fault.ts';
import type { Message, Value } from './message.ts';
import { fillTemplate, namesIn, type Template } from './template.ts';
import { tidyText, toGsm } from './to-gsm.ts';

/** Beyond these a number or a day is a mistake, not a measure. */
const LARGEST = { number: 1e15, day: 1e6 };

/**
 * The text of a message, `count` choosing its plural form; throws a SayError when its key or values are wrong.
 * `messageText({ key: 'next', values: { by: { day: 20886 } } }, english)` is "Next: by Tue 9 Mar."
 */
export function messageText(message: Message, catalogue: Catalogue): string {
  const values = message.values ?? {};
  const count = values['count'];
  const template = catalogue.template(message.key, typeof count === 'number' ? count : undefined);
  checkNames(message, template, catalogue);
  return fillTemplate(template, (name) => {
    const value = values[name] as Value;
    if (!isSayable(value)) throw new SayError('bad-value', catalogue.lang, message.key, [name]);
    return valueText(value, catalogue);
  });
}

/** A value counts as used when some plural form of the message uses it: who gives it need not know the form. */
function checkNames(message: Message, template: Template, { lang, messages }: Catalogue): void {
  const values: Readonly<Record<string, unknown>> = message.values ?? {};
  const missing = template.names.filter((name) => !Object.hasOwn(values, name) || values[name] === undefined);
  if (missing.length > 0) throw new SayError('missing-value', lang, message.key, missing);
  const others = Object.keys(values).filter((name) => !template.names.includes(name));
  if (others.length === 0) return;
  const forms = messages.get(message.key) ?? new Map<string, string>();
  const usable = [...namesIn(forms.values()), ...(forms.has('') ? [] : ['count'])];
  const unused = others.filter((name) => !usable.includes(name));
  if (unused.length > 0) throw new SayError('unused-value', lang, message.key, unused);
}

/** False for what can only be a program's mistake: not a number, half a day, a list of nothing. */
function isSayable(value: Value): boolean {
  if (typeof value === 'number') return Math.abs(value) < LARGEST.number;
  if (typeof value === 'string' || 'key' in value) return true;
  if ('month' in value) return Number.isInteger(value.month) && value.month >= 1 && value.month <= 12;
  if ('day' in value) return Number.isInteger(value.day) && Math.abs(value.day) < LARGEST.day;
  return value.list.length > 0 && value.list.every(isSayable);
}

function valueText(value: Value, catalogue: Catalogue): string {
  const { calendar } = catalogue;
  if (typeof value === 'number') return numberText(value, calendar);
  if (typeof value === 'string') {
    return calendar.alphabet === 'gsm7' ? toGsm(value, calendar.plainLetters).text : tidyText(value);
  }
  if ('month' in value) return calendar.months[value.month - 1] ?? '';
  if ('day' in value) return dayText(value.day, calendar);
  if ('key' in value) return messageText(value, catalogue);
  return listText(
    value.list.map((thing) => valueText(thing, catalogue)),
    calendar,
  );
}
