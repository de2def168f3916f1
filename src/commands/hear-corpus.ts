/** `hear --corpus`: how many texts of a language's corpora the line reads as meant, asks back, or reads wrongly. */
import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { z } from 'zod';
import { hear } from '../hear/hear.ts';
import type { Lexicon } from '../hear/lexicon.ts';
import type { Heard, Reading } from '../hear/reading.ts';
import { type Day, parseDay } from '../plan/day.ts';

const day = z.string().transform((text, context): Day => {
  const read = parseDay(text);
  if (read === null) context.addIssue(`"${text}" is no day such as 2027-03-10`);
  return read ?? 0;
});
const texts = z.array(z.string());

const corpusShape = z.strictObject({
  today: day,
  groups: z.array(z.strictObject({ reads: z.array(z.record(z.string(), z.unknown())), texts })).default([]),
  unclear: z.record(z.string(), texts).default({}),
  neverReport: texts.default([]),
});

export type Corpus = z.infer<typeof corpusShape>;

/** What came of one text: as meant, asked back, another reading that records nothing, or a report that was not said. */
export type Verdict = 'right' | 'asked' | 'wrong' | 'wrongly-recorded';

export interface Judged {
  readonly text: string;
  readonly verdict: Verdict;
  readonly heard: Heard;
}

/** Reads a corpus of phrases or refusals; throws an Error that says what is malformed. */
export function readCorpus(yamlText: string): Corpus {
  const read = corpusShape.safeParse(parse(yamlText));
  if (!read.success) throw new Error(z.prettifyError(read.error));
  return read.data;
}

/** Hears every text of a corpus and judges it. A text that must be refused is right when no report comes of it. */
export function judge(corpus: Corpus, lexicon: Lexicon): readonly Judged[] {
  const heardOf = (text: string) => hear(text, lexicon, corpus.today);
  const phrases = corpus.groups.flatMap(({ reads, texts: said }) =>
    said.map((text) => {
      const heard = heardOf(text);
      return { text, heard, verdict: verdictOf(heard, reads) };
    }),
  );
  const refused = [...Object.values(corpus.unclear).flat(), ...corpus.neverReport].map((text) => {
    const heard = heardOf(text);
    return { text, heard, verdict: reports(heard).length > 0 ? 'wrongly-recorded' : 'right' } as const;
  });
  return [...phrases, ...refused];
}

const reports = ({ readings }: Heard) => readings.filter(({ kind }) => kind === 'report');

function verdictOf(heard: Heard, reads: Corpus['groups'][number]['reads']): Verdict {
  if (heard.unclear) return 'asked';
  const right =
    heard.readings.length === reads.length &&
    heard.readings.every((reading, index) => holds(reading, reads[index]));
  if (right) return 'right';
  const meant = (reading: Reading) => reads.some((one) => holds(reading, one));
  return reports(heard).every(meant) ? 'wrong' : 'wrongly-recorded';
}

/** "6 inches" may be written down as 15 cm in a corpus. */
const NEAR_CM = 0.5;

/** Whether a value has all that is asked for: objects may have more fields, lists not more members; a depth may be rounded. */
function holds(value: unknown, asked: unknown, name = ''): boolean {
  if (name === 'depthCm' && typeof value === 'number' && typeof asked === 'number')
    return Math.abs(value - asked) <= NEAR_CM;
  if (Array.isArray(asked))
    return (
      Array.isArray(value) &&
      value.length === asked.length &&
      asked.every((one, index) => holds(value[index], one))
    );
  if (typeof asked !== 'object' || asked === null) return Object.is(value, asked);
  if (typeof value !== 'object' || value === null) return false;
  return Object.entries(asked).every(([field, one]) =>
    holds((value as Record<string, unknown>)[field], one, field),
  );
}

/** Figures of each file, and every text that is not right. */
export function corpusRows(
  files: readonly string[],
  lexicon: Lexicon,
  onlyFigures: boolean,
): readonly string[] {
  return files.flatMap((file) => {
    const judged = judge(readCorpus(readFileSync(file, 'utf8')), lexicon);
    const count = (verdict: Verdict) => judged.filter((one) => one.verdict === verdict).length;
    const misses = onlyFigures ? [] : judged.filter(({ verdict }) => verdict !== 'right');
    return [
      `${file}: ${judged.length} texts, ${count('right')} right, ${count('asked')} asked back, ${count('wrong')} read otherwise, ${count('wrongly-recorded')} recorded wrongly`,
      ...misses.map(({ text, verdict, heard }) => `  ${verdict}: "${text}" ${JSON.stringify(heard)}`),
    ];
  });
}
