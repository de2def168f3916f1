/** Where the played season's files are. */
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const DEMO = fileURLToPath(new URL('../../scripts/demo/', import.meta.url));

/** What happens in the season. */
export const SEASON_PATH = join(DEMO, 'season.yaml');

/** What growers of a language text; there may be no such file. */
export function seasonTextsPath(lang: string): string {
  return join(DEMO, 'texts', `${lang}.yaml`);
}
