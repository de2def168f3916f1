/** Reads every scheme with its blocks: few and seldom changed, so the shell keeps them in memory. */
import type { JoinWay } from '../agronomy/season.ts';
import type { SharedTeam } from '../scheme/group-section.ts';
import type { SchemeWorld } from '../talk/world.ts';
import type { Executor } from './ready-query.ts';
import type { SchemeSettings } from './scheme-seed.ts';
import { spanOf } from './span-columns.ts';
import { storedId } from './stored-id.ts';
import type { BlocksTable, SchemesTable } from './tables.ts';

/** A scheme as the shell knows it: what a conversation may see, and how its days and nights run. */
export interface SchemeEntry {
  readonly world: SchemeWorld;
  readonly timeZone: string;
  readonly country: string;
  readonly settings: SchemeSettings;
}

/** Every scheme in the database, by id. */
export async function loadSchemes(db: Executor): Promise<readonly SchemeEntry[]> {
  const schemes = await db.selectFrom('schemes').selectAll().orderBy('id').execute();
  const blocks = await db.selectFrom('blocks').selectAll().orderBy('place').orderBy('id').execute();
  return schemes.map((scheme) =>
    entryOf(
      scheme,
      blocks.filter((block) => block.scheme_id === scheme.id),
    ),
  );
}

function entryOf(row: SchemesTable, blocks: readonly BlocksTable[]): SchemeEntry {
  const settings = JSON.parse(row.settings) as SchemeSettings;
  return {
    world: {
      id: row.id,
      name: row.name,
      code: row.code,
      languages: settings.languages,
      officer: settings.officer,
      ...(settings.areaUnit && { areaUnit: settings.areaUnit }),
      ...(settings.climate && { climate: settings.climate }),
      ...(settings.nutrients && { nutrients: settings.nutrients }),
      ...(settings.pricePerPart && { pricePerPart: settings.pricePerPart }),
      ...(settings.sharedTeams && { sharedTeams: teamsOf(settings.sharedTeams, row.id) }),
      blocks: blocks.map((block) => ({
        id: block.id,
        name: block.name,
        water: spanOf(block.water_from, block.water_to),
        target: spanOf(block.target_from, block.target_to),
        ...(block.way === null ? {} : { way: JSON.parse(block.way) as JoinWay }),
        ...canalOf(settings, row.id, block.id),
      })),
    },
    timeZone: row.time_zone,
    country: row.country,
    settings,
  };
}

/** Canals are kept under the ids of the file. */
function canalOf({ canals = {} }: SchemeSettings, schemeId: string, blockId: string) {
  const found = Object.entries(canals).find(([id]) => storedId(schemeId, id) === blockId);
  return found ? { canal: found[1] } : {};
}

const teamsOf = (teams: readonly SharedTeam[], schemeId: string): readonly SharedTeam[] =>
  teams.map((team) => ({ ...team, blocks: team.blocks.map((id) => storedId(schemeId, id)) }));
