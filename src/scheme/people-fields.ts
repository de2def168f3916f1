/** What the fields of a file of people may say, each by itself: its value, or why it has none. */
import { USUAL_WAY, VARIETY_DAYS, WAY_VALUES } from '../agronomy/season.ts';
import { areaHa, figureOf, unitHa } from './area-text.ts';
import type { KnownBlock, KnownPeople } from './people-known.ts';

/** A phone number in E.164 form; null when the text is none. */
export type ReadPhone = (text: string) => string | null;

/** What a field says, or in plain words why it says nothing. */
export type Reading<T> = { readonly is: T } | { readonly not: string };

const LONGEST_NAME = 60;
export const WAY_COLUMNS = ['tillage', 'establishment', 'nursery', 'water'] as const;

export function nameOf(written: string): Reading<string> {
  if (written === '') return { not: 'the name is missing' };
  if (written.length > LONGEST_NAME) return { not: `is longer than ${LONGEST_NAME} letters` };
  return /\p{Cc}|\p{Cs}|\uFFFD/u.test(written) ? { not: 'has signs that are no letters' } : { is: written };
}

export function phoneOf(written: string, readPhone: ReadPhone): Reading<string> {
  if (written === '') return { not: 'the phone is missing' };
  const phone = readPhone(written);
  return phone === null ? { not: 'is not a phone number' } : { is: phone };
}

export function languageOf(written: string, languages: readonly string[]): Reading<string> {
  const tag = languages.find((one) => one === written.toLowerCase());
  if (tag !== undefined) return { is: tag };
  return { not: written === '' ? 'the language is missing' : `is none of ${languages.join(', ')}` };
}

export function blockOf(written: string, blocks: readonly KnownBlock[]): Reading<KnownBlock> {
  const word = written.toLowerCase();
  const names = ({ id, fileId, name }: KnownBlock) => [id, fileId, name.toLowerCase()];
  const block = word === '' ? undefined : blocks.find((one) => names(one).includes(word));
  if (block) return { is: block };
  const all = blocks.map(({ name }) => name).join(', ');
  return { not: written === '' ? 'the block is missing' : `is none of the blocks ${all}` };
}

export function labelOf(written: string): Reading<string | null> {
  if (written === '') return { is: null };
  const isLabel = /^[A-Za-z]{1,4}-?\d{1,4}$/.test(written);
  return isLabel ? { is: written } : { not: 'is no label: write letters and a number, like A-17' };
}

export function numberOf(written: string): Reading<string | null> {
  if (written === '') return { is: null };
  return /^0*[1-9]\d{0,2}$/.test(written)
    ? { is: String(Number(written)) }
    : { not: 'is no plot number: write 1 to 999' };
}

export function unitOf(written: string, { areaUnit }: KnownPeople): Reading<number> {
  const ha = unitHa(written, areaUnit);
  const own = areaUnit ? [areaUnit.words[0]] : [];
  return ha === null
    ? { not: `is no unit of area that is known (${['ha', 'm2', 'acre', ...own].join(', ')})` }
    : { is: ha };
}

/** Under a unit that is none, what is no figure at all is one mistake more. */
export function areaOf(written: string, haInUnit: number | null): Reading<number | null> {
  const ha = haInUnit === null ? figureOf(written) : areaHa(written, haInUnit);
  if (typeof ha === 'string') return { not: ha };
  return { is: haInUnit === null ? null : ha };
}

export function varietyOf(written: string, usual: number): Reading<number> {
  if (written === '') return { is: usual };
  const { least, most } = VARIETY_DAYS;
  const days = Number(written);
  return /^\d{1,3}$/.test(written) && days >= least && days <= most
    ? { is: days }
    : { not: `is not a number of days from ${least} to ${most}` };
}

export function wayOf(
  column: (typeof WAY_COLUMNS)[number],
  written: string,
  block: KnownBlock | null,
): Reading<string> {
  if (written === '') return { is: { ...USUAL_WAY, ...block?.way }[column] };
  const values: readonly string[] = WAY_VALUES[column];
  const value = values.find((one) => one === written.toLowerCase());
  return value === undefined ? { not: `is none of ${values.join(', ')}` } : { is: value };
}

export function placeOf(written: string): Reading<number | null> {
  if (written === '') return { is: null };
  return /^0*[1-9]\d{0,5}$/.test(written)
    ? { is: Number(written) }
    : { not: 'is no place along the canal: write 1 for the first' };
}
