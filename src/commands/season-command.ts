/** `season`: plays a season, over the desk or over a carrier that misbehaves, or some weeks of agents. */
import { existsSync, readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { playAgentSeason } from './agent-season.ts';
import { fakeRoad } from './fake-carrier/fake-road.ts';
import { type Played, playSeason } from './season.ts';
import { readSeasonScript } from './season-file.ts';
import { SEASON_PATH, seasonTextsPath } from './season-paths.ts';
import { languagesIn } from './sheet.ts';

const CARRIERS: readonly string[] = ['desk', 'fake'];
/** What misdeeds befall the texts of `--carrier fake`: the same seed, the same misdeeds. */
const SEED = 'orrowe';

/** Prints the season; returns the exit code. */
export async function seasonCommand(args: readonly string[]): Promise<number> {
  const script = readFileSync(SEASON_PATH, 'utf8');
  const ways = Object.keys(readSeasonScript(script).ways);
  const langs = languagesIn().filter((lang) => existsSync(seasonTextsPath(lang)));
  if (args.join(' ') === '--as agent') {
    await playAgentSeason((row) => console.log(row));
    return 0;
  }
  const wanted = wantedOf(args, langs, ways);
  if (wanted === null) {
    console.error(
      `usage: npm run -s season [-- --as agent | --carrier desk|fake] [--lang ${langs.join('|')}] [--way ${ways.join('|')}]`,
    );
    return 2;
  }
  const { carrier, ...played } = wanted;
  if (carrier === 'fake') return playOverFake({ script, ...played });
  await playSeason({ script, ...played }, (row) => console.log(row));
  return 0;
}

/** Tells at the end what befell the texts; 1 when one was lost or came twice. */
async function playOverFake(played: Played): Promise<number> {
  const road = await fakeRoad(SEED);
  await playSeason({ ...played, road }, (row) => console.log(row));
  const { rows, faults } = road.account();
  for (const row of rows) console.log(row);
  for (const fault of faults) console.error(fault);
  return faults.length === 0 ? 0 : 1;
}

/** The options as given. */
interface Wanted extends Omit<Played, 'script' | 'road'> {
  readonly carrier: string;
}

function wantedOf(args: readonly string[], langs: readonly string[], ways: readonly string[]): Wanted | null {
  try {
    const text = { type: 'string' } as const;
    const options = { lang: text, way: text, carrier: text };
    const { lang, way, carrier = 'desk' } = parseArgs({ args: [...args], options }).values;
    const known = (lang === undefined || langs.includes(lang)) && (way === undefined || ways.includes(way));
    return known && CARRIERS.includes(carrier) ? { lang, way, carrier } : null;
  } catch (error) {
    if (error instanceof TypeError) return null;
    throw error;
  }
}
