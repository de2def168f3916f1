/** Joining by text with the scheme's code: consent first, then name, plots, areas, block, tool and variety, one question each. */
import { figure } from '../agronomy/rulebook.ts';
import { USUAL_WAY, type Way } from '../agronomy/season.ts';
import type { Message } from '../say/message.ts';
import type { TextEvent } from './event.ts';
import { officer } from './phrases.ts';
import { withSize } from './plot-size.ts';
import type { JoinSoFar, JoinStep } from './state.ts';
import { type Part, saying } from './turn.ts';
import type { World } from './world.ts';

const MOST_PLOTS = 9;
const MOST_HA = 20;
/** Hectares are kept to 10 square metres; to one where they must give a local unit's figure again. */
const TO_10_M2 = 1000;
const TO_M2 = 10_000;
const TILLAGE: readonly Way['tillage'][] = ['hoe', 'animals', 'two-wheel', 'none'];

type SoFar = Partial<JoinSoFar>;

/** A number that nobody has: told how to join, or asked for consent when the code is right. */
export function answerStranger(world: World, event: TextEvent): Part {
  const join = event.heard.readings.find((reading) => reading.kind === 'account' && reading.what === 'join');
  const stranger = saying('menu.stranger', { scheme: world.scheme.name, ...officer(world) });
  const said = words(event.text);
  if (!said.includes(world.scheme.code)) {
    return join?.kind === 'account' && join.text ? saying('join.wrong-code', officer(world)) : stranger;
  }
  return ask(world, 'consent', { lang: event.details.language ?? event.lang });
}

/** Words in capitals, a JOIN that is stuck to its code parted from it. */
function words(text: string): readonly string[] {
  return text
    .toUpperCase()
    .replace(/^\s*JOIN(?=\p{L})/u, 'JOIN ')
    .split(/[^\p{L}\p{N}]+/u);
}

/** The next question of joining, or the same once more when the answer does not fit. */
export function continueJoin(world: World, step: JoinStep, soFar: SoFar, event: TextEvent): Part {
  const { numbers } = event.details;
  const first = numbers[0];
  switch (step) {
    case 'consent':
      return agreed(event) === true
        ? ask(world, 'name', { ...soFar, consent: event.text })
        : agreed(event) === false
          ? saying('join.refused')
          : ask(world, 'consent', soFar);
    case 'name':
      return nameStep(world, soFar, event);
    case 'plots':
      return first !== undefined && Number.isInteger(first) && first >= 1 && first <= MOST_PLOTS
        ? ask(world, 'areas', { ...soFar, plots: first })
        : again('plots', soFar, { key: 'join.plots-again', values: { max: MOST_PLOTS } });
    case 'areas':
      return areas(world, soFar, event);
    case 'block':
      return block(world, soFar, first, event.text);
    case 'tillage': {
      const tillage = event.details.tillage ?? (first === undefined ? undefined : TILLAGE[first - 1]);
      return ask(world, tillage ? 'variety' : 'tillage', tillage ? { ...soFar, tillage } : soFar);
    }
    case 'variety':
      return variety(world, soFar, first);
    case 'sure':
      return finish(world, soFar, agreed(event));
  }
}

/** Yes is 1 or a yes-word, no is 2 or a no-word; null when neither. */
function agreed(event: TextEvent): boolean | null {
  const answer = event.heard.readings.find((reading) => reading.kind === 'answer');
  if (answer?.kind !== 'answer') return null;
  if (answer.answer === 'yes') return true;
  if (answer.answer === 'no') return false;
  return answer.answer.pick === 1 ? true : answer.answer.pick === 2 ? false : null;
}

/** A text that says something else is no name; "my name is Lulu" is. */
function nameStep(world: World, soFar: SoFar, event: TextEvent): Part {
  const told = event.heard.readings.find((reading) => reading.kind === 'account' && reading.what === 'name');
  if (told?.kind === 'account' && told.text) return named(world, soFar, told.text);
  const other = event.heard.readings.length > 0;
  return other ? again('name', soFar, { key: 'join.name-again' }) : named(world, soFar, event.text);
}

function named(world: World, soFar: SoFar, text: string): Part {
  const name = text
    .replace(/[^\p{L}\p{M}' .-]/gu, ' ')
    .replace(/\s+/g, ' ')
    .trim();
  const fits = name.length >= 2 && name.length <= 30 && name.split(' ').length <= 4;
  return fits ? ask(world, 'plots', { ...soFar, name }) : again('name', soFar, { key: 'join.name-again' });
}

/** A bare number is hectares; where people count in a unit of their own it may be either, and is asked for again. */
function areas(world: World, soFar: SoFar, event: TextEvent): Part {
  const plots = soFar.plots ?? 1;
  const unit = world.scheme.areaUnit;
  const step = unit ? TO_M2 : TO_10_M2;
  const { areasHa, numbers } = event.details;
  const told = areasHa
    .map((area, index) => area ?? (unit ? 0 : (numbers[index] ?? 0)))
    .map((area) => Math.round(area * step) / step);
  const fit = told.length === plots && told.every((area) => area > 0 && area <= MOST_HA);
  if (!fit) return again('areas', soFar, { key: 'join.areas-again', values: { count: plots } });
  const next = { ...soFar, areasHa: told };
  const [only, ...others] = world.scheme.blocks;
  return only && others.length === 0
    ? ask(world, 'tillage', { ...next, blockId: only.id })
    : ask(world, 'block', next);
}

function block(world: World, soFar: SoFar, pick: number | undefined, text: string): Part {
  const said = words(text);
  const byName = world.scheme.blocks.filter(({ name }) => said.includes(name.toUpperCase()));
  const chosen =
    byName.length === 1 ? byName[0] : pick === undefined ? undefined : world.scheme.blocks[pick - 1];
  return chosen ? ask(world, 'tillage', { ...soFar, blockId: chosen.id }) : ask(world, 'block', soFar);
}

function variety(world: World, soFar: SoFar, days: number | undefined): Part {
  if (days === 0)
    return ask(world, 'sure', { ...soFar, varietyDays: figure(world.rulebook, 'variety.usual') });
  const fits = days !== undefined && Number.isInteger(days) && days >= 60 && days <= 240;
  return fits
    ? ask(world, 'sure', { ...soFar, varietyDays: days })
    : again('variety', soFar, { key: 'join.variety-again' });
}

function finish(world: World, soFar: SoFar, sure: boolean | null): Part {
  const { name, lang, consent, areasHa, blockId, tillage, varietyDays } = soFar;
  if (sure === false) return saying('join.dropped');
  if (sure === null || !name || !lang || !consent || !areasHa || !blockId || !tillage || !varietyDays)
    return ask(world, 'sure', soFar);
  const way: Way = {
    ...USUAL_WAY,
    tillage,
    ...world.scheme.blocks.find(({ id }) => id === blockId)?.way,
  };
  const plots = areasHa.map((areaHa, index) => ({
    number: String(index + 1),
    blockId,
    areaHa,
    way,
    varietyDays,
  }));
  return {
    ...saying('join.done', { name }),
    effects: [{ do: 'join', joiner: { name, lang, consent, plots } }],
  };
}

function again(step: JoinStep, soFar: SoFar, question: Message): Part {
  return { say: [question], standing: { at: 'join', step, soFar } };
}

function ask(world: World, step: JoinStep, soFar: SoFar): Part {
  return { say: question(world, step, soFar), standing: { at: 'join', step, soFar } };
}

function question(world: World, step: JoinStep, soFar: SoFar): readonly Message[] {
  const { scheme } = world;
  const name = soFar.name ?? '';
  switch (step) {
    case 'consent':
      return [{ key: 'join.consent', values: { scheme: scheme.name } }];
    case 'name':
      return [{ key: 'join.name' }];
    case 'plots':
      return [{ key: 'join.plots', values: { name } }];
    case 'areas':
      return [{ key: 'join.areas', values: { count: soFar.plots ?? 1 } }];
    case 'block':
      return [
        { key: 'join.block' },
        ...scheme.blocks.map(
          (one, index): Message => ({ key: 'choice.one', values: { number: index + 1, what: one.name } }),
        ),
      ];
    case 'tillage':
      return [{ key: 'join.tillage' }];
    case 'variety':
      return [{ key: 'join.variety' }];
    case 'sure':
      return [
        summary(world, soFar),
        ...['yes', 'no'].map(
          (word, index): Message => ({
            key: 'choice.one',
            values: { number: index + 1, what: { key: `choice.${word}` } },
          }),
        ),
      ];
  }
}

function summary(world: World, soFar: SoFar): Message {
  const areasHa = soFar.areasHa ?? [];
  const list = areasHa.map((area, index) => {
    const said: Message = { key: 'join.area', values: { number: index + 1, area } };
    return withSize(world, said, area, areasHa.length);
  });
  const block = world.scheme.blocks.find(({ id }) => id === soFar.blockId)?.name ?? '';
  const plots: Message = {
    key: 'plot.inside',
    values: { count: areasHa.length, plots: { list: areasHa.map((_, index) => index + 1) } },
  };
  const values = { name: soFar.name ?? '', plots, block, areas: { list } };
  const tillage = { key: `join.with.${soFar.tillage ?? 'none'}` };
  return { key: 'join.sure', values: { ...values, tillage, days: soFar.varietyDays ?? 0 } };
}
