/** Reads a text as the answer to "which plot?": "3", "plot 3", "1 and 2", "all". */
import type { TextEvent } from './event.ts';

/** The plots named; null when the text is something else, such as a new report. */
export function plotsIn(event: TextEvent): readonly string[] | null {
  const { readings } = event.heard;
  const [only] = readings;
  if (readings.length === 1 && only?.kind === 'answer' && typeof only.answer === 'object')
    return [String(only.answer.pick)];
  if (readings.length > 0) return null;
  return event.details.plots.length > 0 ? event.details.plots : null;
}
