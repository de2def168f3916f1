/** Mistakes in a gateway's file in plain words. Names of settings are shown, never their values: these may be secrets. */
import type { YAMLError } from 'yaml';
import type { z } from 'zod';

const YAML_WORDS: Readonly<Record<string, string>> = {
  BAD_INDENT: 'it stands too far to the left or right',
  TAB_AS_INDENT: 'a tab stands where blanks must',
  MISSING_CHAR: 'a bracket, a quote, a colon or a comma is missing',
  DUPLICATE_KEY: 'this name is there already',
  MULTILINE_IMPLICIT_KEY: 'a colon is missing',
};

const KINDS: Readonly<Record<string, string>> = {
  object: 'must have settings below it',
  record: 'must have names with values below it',
  array: 'must be a list',
  string: 'must be a text',
  number: 'must be a number',
  int: 'must be a whole number',
  boolean: 'must be true or false',
};

/** A line that is no YAML: "line 3 cannot be read: a tab stands where blanks must". */
export function unreadLine({ code, linePos }: Pick<YAMLError, 'code' | 'linePos'>): string {
  return `line ${linePos?.[0].line ?? 1} cannot be read: ${YAML_WORDS[code] ?? 'look for a bracket, a quote or blanks too many'}`;
}

/** What is said of an issue for which the shape has no words of its own. */
export function inPlainWords(issue: z.core.$ZodRawIssue): string {
  if (issue.code === 'invalid_type') return KINDS[issue.expected] ?? 'is of another kind than it must be';
  if (issue.code === 'invalid_key') return 'has a name that is none: letters, digits and "_"';
  return 'is none of what it may be';
}

/** The sentences of one issue in a file with this content: "receive.fields is missing", "foo: no such section". */
export function mistakesOf(issue: z.core.$ZodIssue, content: unknown): readonly string[] {
  const place = issue.path.map(stepOf).join('.');
  if (issue.code === 'unrecognized_keys')
    return issue.keys.map((key) =>
      place === ''
        ? `${key}: no such section; there are send, receive and report`
        : `${place}.${key}: no such setting`,
    );
  if (place === '') return [issue.message];
  if (!isMissing(at(content, issue.path))) return [`${place} ${issue.message}`];
  // Of a whole section it helps nobody to hear what it must be.
  const isOfSettings = issue.code === 'invalid_type' && ['object', 'record'].includes(issue.expected);
  return [isOfSettings ? `${place} is missing` : `${place} is missing; it ${issue.message}`];
}

/** A name with nothing behind it is as good as none. */
const isMissing = (found: unknown): boolean => found === undefined || found === null;

/** Entries of lists are counted from 1. */
function stepOf(part: PropertyKey): string {
  return typeof part === 'number' ? String(part + 1) : String(part);
}

function at(content: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (found, part) =>
      typeof found === 'object' && found !== null
        ? (found as Readonly<Record<PropertyKey, unknown>>)[part]
        : undefined,
    content,
  );
}
