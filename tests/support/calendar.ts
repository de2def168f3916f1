/** Calendars read back by another program than the one that wrote them. */
import ICAL from 'ical.js';

export interface ReadEvent {
  readonly uid: string;
  readonly summary: string;
  /** "2027-03-10" for whole days, an instant in UTC else. */
  readonly start: string;
  readonly end: string;
  readonly stamp: string;
}

/** The events of a calendar, in its order; throws when the text is no calendar. */
export function readCalendar(text: string): readonly ReadEvent[] {
  const calendar = new ICAL.Component(ICAL.parse(text));
  if (calendar.name !== 'vcalendar' || !calendar.getFirstPropertyValue('prodid'))
    throw new Error('no calendar');
  return calendar.getAllSubcomponents('vevent').map((component) => {
    const event = new ICAL.Event(component, { strictExceptions: true });
    const stamp = String(component.getFirstPropertyValue('dtstamp'));
    const [start, end] = [String(event.startDate), String(event.endDate)];
    return { uid: event.uid, summary: event.summary, start, end, stamp };
  });
}
