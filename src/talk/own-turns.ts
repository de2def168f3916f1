/** A grower's own turns at the canal and with the shared team, as they were told. */
import type { Turn } from '../agronomy/season.ts';
import type { Message } from '../say/message.ts';
import { activityName, which } from './phrases.ts';
import type { Sentence } from './turn.ts';
import type { World } from './world.ts';

/** A sentence for each turn of the phone's plots that is not over; none when there is none. */
export function ownTurns({ plots, today }: World): readonly Sentence[] {
  return plots.flatMap((plot): Sentence[] => {
    const { waterTurn, teamVisit } = plot.season;
    const values = { which: which([plot]) };
    return [
      ...(waterTurn && waterTurn.to >= today
        ? [{ key: 'own-turn.water', values: { ...values, span: daysOf(waterTurn) } }]
        : []),
      ...(teamVisit && teamVisit.to >= today
        ? [
            {
              key: 'own-turn.team',
              values: { ...values, span: daysOf(teamVisit), activity: activityName(teamVisit.activity) },
            },
          ]
        : []),
    ];
  });
}

const daysOf = ({ from, to }: Turn): Message =>
  from === to
    ? { key: 'day.on', values: { day: { day: from } } }
    : { key: 'moment.days', values: { from: { day: from }, to: { day: to } } };
