/**
 * The rows as they lie in the database. Only types that every database has: text, whole numbers, one double;
 * instants are epoch milliseconds, dates are "YYYY-MM-DD", yes and no are 1 and 0, structures are JSON in text.
 */
import type { Generated, Selectable } from 'kysely';

/** 1 for yes, 0 for no. */
export type Flag = 0 | 1;

export interface SchemesTable {
  id: string;
  name: string;
  code: string;
  time_zone: string;
  country: string;
  /** JSON of SchemeSettings. */
  settings: string;
  /** Fingerprint of the scheme file as last read. */
  digest: string;
  /** The day on which the file was first loaded: what days written as "+25" count from. */
  loaded_on: string;
}

export interface BlocksTable {
  id: string;
  scheme_id: string;
  name: string;
  place: number;
  water_from: string | null;
  water_to: string | null;
  target_from: string | null;
  target_to: string | null;
  /** The local start of the rains. */
  rain_from: string | null;
  /** How those who join in the block grow, as JSON; null for the usual way. */
  way: string | null;
}

export interface PeopleTable {
  id: string;
  scheme_id: string;
  name: string;
  lang: string;
  role: 'grower' | 'agent';
  /** JSON of what the scheme file said last; null for people who joined by text. */
  filed: string | null;
  forgotten: Flag;
  /** Of an agent: JSON of the ids of the blocks that he or she answers for; null for all of the scheme. */
  blocks: string | null;
}

/** A phone as read. */
export type PhoneRow = Selectable<PhonesTable>;

export interface PhonesTable {
  number: string;
  /** Inbound texts so far: the place of the newest in this phone's order. */
  turns: number;
  /** Language of the last answer; null before the first. */
  lang: string | null;
  talk_version: number | null;
  /** JSON of the conversation's state. */
  talk_state: string | null;
  talk_expires_ms: number | null;
  /** 1 when the number has opted out. */
  stopped: Flag;
  /** How often in a row a carrier said that the number is no longer in service. */
  gone: Generated<number>;
  /**
   * When the number was last known to be its people's: they texted, or the line first texted to them. Null before that; 0
   * since a carrier called it out of service.
   */
  vouched_ms: number | null;
}

/** A code that ties a second phone to a person; one open code a person. */
export interface PhoneOffersTable {
  id: string;
  code: string;
  person_id: string;
  /** The phone that it was texted to. */
  phone: string;
  until_ms: number;
}

export interface PhonePeopleTable {
  phone: string;
  person_id: string;
  /** Order among the person's phones: the lowest gets the reminders. */
  place: number;
}

export interface PlotsTable {
  id: string;
  scheme_id: string;
  number: string;
  label: string | null;
  owner_id: string;
  block_id: string;
  area_ha: number;
  /** Its place along the block's canal; those of one place follow each other by id. */
  place: number;
}

export interface SeasonsTable {
  id: string;
  plot_id: string;
  /** 1 while it is the plot's present season. */
  open: Flag;
  way: string;
  variety_days: number;
  /** JSON of SeasonChoices: what the grower decided by text. */
  choices: string;
  teams: string | null;
  basal_advised: Flag | null;
  filed: string | null;
  /** The day on which the line first planned it: a grower who never texts is late since then. */
  planned_on: string | null;
}

export interface ReportsTable {
  id: string;
  season_id: string;
  /** Id of the inbound text. */
  batch: string;
  phone: string | null;
  /** Place of that text among the phone's texts. */
  turn: number;
  activity: string;
  stage: string;
  done_on: string | null;
  measures: string;
  /** The report whose day this one corrects. */
  corrects: string | null;
  said_ms: number;
}

export interface UndosTable {
  /** The report taken back. */
  report_id: string;
  /** Id of the inbound text that took it back. */
  by_batch: string;
  said_ms: number;
}

export interface TextsInTable {
  id: string;
  carrier_id: string;
  phone: string | null;
  turn: number;
  body: string;
  received_ms: number;
  /** What was answered; null when nothing was. */
  answer: string | null;
  /** 1 when the conversation failed on this text. */
  faulty: Flag;
  /** Size of the text in; null for those of before it was kept. */
  encoding: string | null;
  units: number | null;
  parts: number | null;
  /** Parts of the text in as the carrier counted them. */
  carrier_parts: number | null;
  /** Size and price of the answer, where it left with the carrier's own request; null where nothing left with it. */
  answer_encoding: string | null;
  answer_units: number | null;
  answer_parts: number | null;
  /** Decimal text; null where the scheme names no price. */
  answer_price: string | null;
  currency: string | null;
  /** The carrier's mark of the delivery, with the sender: the same for a request that comes again. */
  delivery_token: string | null;
  /** 1 when the answer went to the outbox: a second delivery gets none. */
  answer_queued: Generated<Flag>;
}

/** Named by season, activity, why and day: the same reminder is never there twice. */
export interface RemindersTable {
  scheme_id: string;
  season_id: string;
  activity: string;
  why: string;
  /** The day it was made for. */
  due_on: string;
  /** The next day on which the sweep looks at it. */
  look_on: string;
  sent: Flag;
}

/** A text of the outbox as read. */
export type OutboxRow = Selectable<OutboxTable>;

export interface OutboxTable {
  id: string;
  /** Idempotency key: a second text of the same key is never queued. */
  key: string;
  phone: string;
  text: string;
  state: 'queued' | 'handed' | 'delivered' | 'failed';
  created_ms: number;
  not_before_ms: number;
  expires_ms: number;
  lease_until_ms: number;
  attempts: number;
  carrier_id: string | null;
  settled_ms: number | null;
  why: string | null;
  /** 1 while a try may have been taken without our knowing. */
  doubtful: Generated<Flag>;
  /** How far the carrier's receipts have come: 0 waits there, 1 sending, 2 sent, 3 ended, 4 read. Never goes down. */
  receipt: Generated<number>;
  /** Parts as the carrier counted them. */
  carrier_parts: number | null;
  encoding: string | null;
  units: number | null;
  parts: number | null;
  /** Of all its parts, as the scheme's price was when it was queued: decimal text; null where the scheme names none. */
  price: string | null;
  currency: string | null;
  /** When the carrier took it; null for what it never took. */
  handed_ms: number | null;
}

export interface ConsentsTable {
  id: string;
  phone: string;
  person_id: string | null;
  /** `tied` to a person by a code; `let-go` by somebody else who has the number now. */
  kind: 'joined' | 'stopped' | 'started' | 'tied' | 'let-go';
  words: string;
  lang: string | null;
  said_ms: number;
}

export interface CautionsTable {
  phone: string;
  activity: string;
  given_ms: number;
}

export interface TroublesTable {
  id: string;
  season_id: string;
  batch: string;
  what: string;
  until_on: string | null;
  words: string;
  said_ms: number;
}

/** A broadcast is queued phone by phone, in pieces; `next_after` is how far it has come. */
export interface BroadcastsTable {
  id: string;
  scheme_id: string;
  /** The agent's phone: it is told how many were reached. */
  phone: string;
  /** JSON of BroadcastHead. */
  head: string;
  state: 'queuing' | 'sending' | 'told';
  /** The person or phone that was queued last; empty at first. */
  next_after: string;
  created_ms: number;
  /** When its last text was queued. */
  queued_ms: number | null;
}

/** When water, or the shared team, comes to a plot, as told by the newest broadcast about it. */
export interface AppointmentsTable {
  plot_id: string;
  kind: 'water' | 'team';
  broadcast_id: string;
  /** JSON of a Visit; null when the appointment was taken away. */
  visit: string | null;
  /** JSON of the Visit told before; null when there was none. */
  before: string | null;
}

/** What agents did. Rows are only ever added. */
export interface AgentActsTable {
  id: string;
  scheme_id: string;
  /** Null for what was done from a file at the machine. */
  person_id: string | null;
  /** Id of the inbound text; null likewise. */
  batch: string | null;
  act: string;
  details: string;
  done_ms: number;
}

/** The newest session of numbered screens on each phone. */
export interface UssdSessionsTable {
  phone: string;
  /** The carrier's id, which may come again; null where it sends none. */
  session_id: string | null;
  /** Of the screen's shape. */
  version: number;
  /** JSON of a Screen. */
  screen: string;
  /** The input of the newest hit as it came. */
  seen: string;
  /** 1 after an empty input on a later hop: the carrier may begin to count inputs anew. */
  restarted: Flag;
  /** The carrier's id of the newest hit, where it sends one. */
  hit_id: string | null;
  hops: number;
  /** What the newest hit was answered. */
  answer: string;
  /** 1 when that answer ended the session. */
  ended: Flag;
  last_ms: number;
  /** Until then a session that was lost can be gone on with. */
  expires_ms: number;
}

/** Every table under its name in the database. */
export interface Tables {
  schemes: SchemesTable;
  blocks: BlocksTable;
  people: PeopleTable;
  phones: PhonesTable;
  phone_people: PhonePeopleTable;
  phone_offers: PhoneOffersTable;
  plots: PlotsTable;
  seasons: SeasonsTable;
  reports: ReportsTable;
  undos: UndosTable;
  texts_in: TextsInTable;
  reminders: RemindersTable;
  outbox: OutboxTable;
  consents: ConsentsTable;
  cautions: CautionsTable;
  troubles: TroublesTable;
  broadcasts: BroadcastsTable;
  appointments: AppointmentsTable;
  agent_acts: AgentActsTable;
  ussd_sessions: UssdSessionsTable;
}
