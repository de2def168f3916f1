/** "Nutrients plot 3", "NPK 120 60 40": bags to buy and when to put them on, by the scheme's advice or the figures in the text. */

import { areaRefusal } from '../agronomy/sums/check-input.ts';
import { type ProductKg, topdressesOf } from '../agronomy/sums/dressings.ts';
import { type NutrientSum, needRefusal, nutrients } from '../agronomy/sums/nutrients.ts';
import type { NutrientKg } from '../agronomy/sums/products.ts';
import { isRefusal } from '../agronomy/sums/sum.ts';
import { KG_PER_TONNE } from '../agronomy/sums/units.ts';
import type { SumReading } from '../hear/reading.ts';
import type { Message } from '../say/message.ts';
import { caution } from './cautions.ts';
import { officer } from './phrases.ts';
import { type Planned, planned } from './planned.ts';
import type { Topic } from './state.ts';
import { sumRefused } from './sum-refused.ts';
import { sumHead, tidy } from './sum-words.ts';
import { type Part, type Sentence, saying } from './turn.ts';
import type { PlotWorld, World } from './world.ts';

/** Without advice and without figures the officer is named: how much to give is never the line's to say. */
export function answerNutrients(world: World, reading: SumReading, plot: PlotWorld): Part {
  const { bare = [] } = reading;
  const [n = 0, p2o5 = 0, k2o = 0] = bare;
  const per = reading.perHa ?? 1;
  const own = bare.length > 0 ? { n: n / per, p2o5: p2o5 / per, k2o: k2o / per } : null;
  const advice = world.scheme.nutrients?.recommendation;
  const need = own ?? advice;
  if (!need) return saying('sum.no-advice', officer(world));
  const { products } = world.scheme.nutrients ?? { products: [] };
  if (products.length === 0) return withoutProducts(world, reading, plot, need);
  const known = planned(world, plot);
  const manure = { tonnes: reading.manureT ?? manureOn(plot) };
  const sum = nutrients(
    {
      areaHa: reading.areaHa ?? plot.season.areaHa,
      needKgPerHa: need,
      products,
      ...(manure.tonnes > 0 && { manure }),
      split: { topdresses: topdressesOf(world.rulebook, known.season.way) },
    },
    world.rulebook,
  );
  if (isRefusal(sum)) return sumRefused(sum);
  const care = caution(world, [{ activity: 'basal', tillage: plot.season.way.tillage }]);
  const topic: Topic = {
    plotId: plot.id,
    activity: null,
    sum: 'nutrients',
    ...(own && { variant: 'own' }),
  } as const;
  return { ...care, topic, say: [...toldOf(world, reading, known, sum, own !== null), ...care.say] };
}

/** Tonnes of manure that were reported on the plot, as far as they were weighed. */
function manureOn({ season: { reports } }: PlotWorld): number {
  const weighed = reports.flatMap(({ activity, measures }) =>
    activity === 'manure' && measures?.amount ? [measures.amount] : [],
  );
  return weighed.reduce((sum, { value, unit }) => {
    if (unit === 'ton') return sum + value;
    return unit === 'kg' ? sum + value / KG_PER_TONNE : sum;
  }, 0);
}

/** The arithmetic alone: kg of nutrients for the area. */
function withoutProducts(world: World, reading: SumReading, plot: PlotWorld, need: NutrientKg): Part {
  const areaHa = reading.areaHa ?? plot.season.areaHa;
  const refused = areaRefusal(world.rulebook, areaHa) ?? needRefusal(world.rulebook, need);
  if (refused) return sumRefused(refused);
  const kg = { n: tidy(need.n * areaHa), p2o5: tidy(need.p2o5 * areaHa), k2o: tidy(need.k2o * areaHa) };
  return {
    topic: { plotId: plot.id, activity: null, sum: 'nutrients', variant: 'plain' },
    say: [
      sumHead(world, 'sum.nutrients-plain', reading, plot, kg),
      { key: 'sum.which-bags', values: officer(world) },
    ],
  };
}

function toldOf(
  world: World,
  reading: SumReading,
  known: Planned,
  sum: NutrientSum,
  own: boolean,
): Sentence[] {
  const { buy, dressings, manureNKg } = sum;
  const bags = buy.map(
    ({ bags: count, name }): Message => ({ key: 'sum.bags', values: { count, product: name } }),
  );
  const head = sumHead(world, own ? 'sum.nutrients-own' : 'sum.nutrients', reading, known.plot, {
    bags: { list: bags },
  });
  const manure = manureNKg > 0 ? [{ key: 'sum.manure', values: { kg: tidy(manureNKg) } }] : [];
  const days = topdressDays(known, reading.areaHa !== undefined);
  const later = dressings.filter(({ at }) => at === 'topdress');
  const first = later[0];
  const basal = dressings.find(({ at }) => at === 'basal');
  return [
    head,
    ...manure,
    ...(basal ? [{ key: 'sum.basal', values: { list: kgOf(basal.products) } }] : []),
    ...(first ? [{ key: 'sum.topdress', values: { count: later.length, list: kgOf(first.products) } }] : []),
    ...(first && days.length === later.length
      ? [{ key: 'sum.topdress-days', values: { days: { list: days.map((day) => ({ day })) } }, spare: true }]
      : []),
  ];
}

/** The days of the rounds that the plan knows; of an area that is no plot none. */
function topdressDays({ plan }: Planned, isArea: boolean): readonly number[] {
  if (isArea) return [];
  return plan.steps.flatMap(({ activity, on, due }) => {
    const day = on ?? due;
    return activity === 'topdress' && day !== null ? [day] : [];
  });
}

/** As near as scales go: the parts of a bag then come to no more than the bag. */
const weighed = (kg: number) => (kg < 10 ? Math.round(kg * 10) / 10 : Math.round(kg));

/** Less of one product beside others is not worth weighing. */
const LEAST_KG = 1;

const kgOf = (products: readonly ProductKg[]) => ({
  list: worthWeighing(products).map(
    ({ name, kg }): Message => ({ key: 'sum.kg', values: { kg: weighed(kg), product: name } }),
  ),
});

function worthWeighing(products: readonly ProductKg[]): readonly ProductKg[] {
  const some = products.filter(({ kg }) => kg >= LEAST_KG);
  return some.length > 0 ? some : products;
}
