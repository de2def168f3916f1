/** The demo scheme as a season plays it: its growers in one language, its plots in one way of growing where one is named. */
import { readFileSync } from 'node:fs';
import { parse, stringify } from 'yaml';
import { DEMO_SCHEME } from './open-desk-line.ts';
import type { SeasonScript } from './season-file.ts';

interface SchemeText {
  readonly people: readonly { readonly role?: string; readonly lang: string }[];
  readonly plots: readonly { readonly way: object }[];
}

/** The scheme's text with every grower speaking `lang`; agents keep theirs. Without a known way, plots keep theirs too. */
export function seasonScheme(script: SeasonScript, lang: string, way: string | undefined): string {
  const scheme = parse(readFileSync(DEMO_SCHEME, 'utf8')) as SchemeText;
  const people = scheme.people.map((person) => (person.role === 'agent' ? person : { ...person, lang }));
  return stringify({ ...scheme, people, plots: plotsIn(scheme, script, way) });
}

/** The plots in the named way, with the hands that there are for it. */
function plotsIn({ plots }: SchemeText, script: SeasonScript, name: string | undefined): SchemeText['plots'] {
  const way = name === undefined ? undefined : script.ways[name];
  if (!way) return plots;
  const teams = script.teams[way.tillage as keyof SeasonScript['teams']];
  const hands = () => (teams === undefined ? {} : { teams: { ...teams } });
  return plots.map((plot) => ({ ...plot, way: { ...plot.way, ...way }, ...hands() }));
}
