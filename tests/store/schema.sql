CREATE TABLE "agent_acts" (
  "id" text primary key,
  "scheme_id" text not null references "schemes" ("id"),
  "person_id" text references "people" ("id"),
  "batch" text references "texts_in" ("id"),
  "act" text not null,
  "details" text not null,
  "done_ms" bigint not null);

CREATE TABLE "appointments" (
  "plot_id" text not null references "plots" ("id"),
  "kind" text not null,
  "broadcast_id" text not null references "broadcasts" ("id"),
  "visit" text,
  "before" text,
  constraint "appointments_pk" primary key ("plot_id",
  "kind"));

CREATE INDEX "appointments_broadcast" on "appointments" (
  "broadcast_id",
  "plot_id");

CREATE TABLE "blocks" (
  "id" text primary key,
  "scheme_id" text not null references "schemes" ("id"),
  "name" text not null,
  "place" integer not null,
  "water_from" text,
  "water_to" text,
  "target_from" text,
  "target_to" text,
  "rain_from" text,
  "way" text);

CREATE TABLE "broadcasts" (
  "id" text primary key,
  "scheme_id" text not null references "schemes" ("id"),
  "phone" text not null,
  "head" text not null,
  "state" text not null,
  "next_after" text not null,
  "created_ms" bigint not null,
  "queued_ms" bigint);

CREATE INDEX "broadcasts_phone" on "broadcasts" (
  "phone");

CREATE INDEX "broadcasts_state" on "broadcasts" (
  "state");

CREATE TABLE "cautions" (
  "phone" text not null,
  "activity" text not null,
  "given_ms" bigint not null,
  constraint "cautions_pk" primary key ("phone",
  "activity"));

CREATE TABLE "consents" (
  "id" text primary key,
  "phone" text not null,
  "person_id" text,
  "kind" text not null,
  "words" text not null,
  "lang" text,
  "said_ms" bigint not null);

CREATE INDEX "consents_person" on "consents" (
  "person_id");

CREATE INDEX "consents_phone" on "consents" (
  "phone");

CREATE TABLE "outbox" (
  "id" text primary key,
  "key" text not null unique,
  "phone" text not null,
  "text" text not null,
  "state" text not null,
  "created_ms" bigint not null,
  "not_before_ms" bigint not null,
  "expires_ms" bigint not null,
  "lease_until_ms" bigint not null,
  "attempts" integer not null,
  "carrier_id" text,
  "settled_ms" bigint,
  "why" text,
  "doubtful" integer default 0 not null,
  "receipt" integer default 0 not null,
  "carrier_parts" integer,
  "encoding" text,
  "units" integer,
  "parts" integer,
  "price" text,
  "currency" text,
  "handed_ms" bigint);

CREATE INDEX "outbox_carrier" on "outbox" (
  "carrier_id");

CREATE INDEX "outbox_handed" on "outbox" (
  "handed_ms");

CREATE INDEX "outbox_phone" on "outbox" (
  "phone",
  "state");

CREATE INDEX "outbox_state" on "outbox" (
  "state",
  "not_before_ms",
  "id");

CREATE TABLE "people" (
  "id" text primary key,
  "scheme_id" text not null references "schemes" ("id"),
  "name" text not null,
  "lang" text not null,
  "role" text not null,
  "filed" text,
  "forgotten" integer not null,
  "blocks" text);

CREATE TABLE "phone_offers" (
  "id" text primary key,
  "code" text not null,
  "person_id" text not null unique references "people" ("id"),
  "phone" text not null,
  "until_ms" bigint not null);

CREATE INDEX "phone_offers_code" on "phone_offers" (
  "code");

CREATE TABLE "phone_people" (
  "phone" text not null references "phones" ("number"),
  "person_id" text not null references "people" ("id"),
  "place" integer not null,
  constraint "phone_people_pk" primary key ("phone",
  "person_id"));

CREATE INDEX "phone_people_person" on "phone_people" (
  "person_id");

CREATE TABLE "phones" (
  "number" text primary key,
  "turns" integer not null,
  "lang" text,
  "talk_version" integer,
  "talk_state" text,
  "talk_expires_ms" bigint,
  "stopped" integer not null,
  "gone" integer default 0 not null,
  "vouched_ms" bigint);

CREATE INDEX "phones_gone" on "phones" (
  "gone");

CREATE TABLE "plots" (
  "id" text primary key,
  "scheme_id" text not null references "schemes" ("id"),
  "number" text not null,
  "label" text,
  "owner_id" text not null references "people" ("id"),
  "block_id" text not null references "blocks" ("id"),
  "area_ha" double precision not null,
  "place" integer default 0 not null);

CREATE INDEX "plots_block" on "plots" (
  "block_id",
  "place",
  "id");

CREATE INDEX "plots_owner" on "plots" (
  "owner_id");

CREATE TABLE "reminders" (
  "scheme_id" text not null references "schemes" ("id"),
  "season_id" text not null references "seasons" ("id"),
  "activity" text not null,
  "why" text not null,
  "due_on" text not null,
  "look_on" text not null,
  "sent" integer not null,
  constraint "reminders_pk" primary key ("season_id",
  "activity",
  "why",
  "due_on"));

CREATE INDEX "reminders_due" on "reminders" (
  "scheme_id",
  "sent",
  "look_on");

CREATE TABLE "reports" (
  "id" text primary key,
  "season_id" text not null references "seasons" ("id"),
  "batch" text not null references "texts_in" ("id"),
  "phone" text references "phones" ("number"),
  "turn" integer not null,
  "activity" text not null,
  "stage" text not null,
  "done_on" text,
  "measures" text not null,
  "corrects" text references "reports" ("id"),
  "said_ms" bigint not null);

CREATE INDEX "reports_phone" on "reports" (
  "phone");

CREATE INDEX "reports_season" on "reports" (
  "season_id");

CREATE TABLE "schemes" (
  "id" text primary key,
  "name" text not null,
  "code" text not null unique,
  "time_zone" text not null,
  "country" text not null,
  "settings" text not null,
  "digest" text not null,
  "loaded_on" text not null);

CREATE TABLE "seasons" (
  "id" text primary key,
  "plot_id" text not null references "plots" ("id"),
  "open" integer not null,
  "way" text not null,
  "variety_days" integer not null,
  "choices" text not null,
  "teams" text,
  "basal_advised" integer,
  "filed" text,
  "planned_on" text);

CREATE INDEX "seasons_plot" on "seasons" (
  "plot_id");

CREATE TABLE "texts_in" (
  "id" text primary key,
  "carrier_id" text not null unique,
  "phone" text references "phones" ("number"),
  "turn" integer not null,
  "body" text not null,
  "received_ms" bigint not null,
  "answer" text,
  "faulty" integer not null,
  "encoding" text,
  "units" integer,
  "parts" integer,
  "carrier_parts" integer,
  "answer_encoding" text,
  "answer_units" integer,
  "answer_parts" integer,
  "answer_price" text,
  "currency" text,
  "delivery_token" text,
  "answer_queued" integer default 0 not null,
  constraint "texts_in_turn" unique ("phone",
  "turn"));

CREATE INDEX "texts_in_received" on "texts_in" (
  "received_ms");

CREATE UNIQUE INDEX "texts_in_token" on "texts_in" (
  "delivery_token");

CREATE TABLE "troubles" (
  "id" text primary key,
  "season_id" text not null references "seasons" ("id"),
  "batch" text not null references "texts_in" ("id"),
  "what" text not null,
  "until_on" text,
  "words" text not null,
  "said_ms" bigint not null);

CREATE INDEX "troubles_season" on "troubles" (
  "season_id");

CREATE TABLE "undos" (
  "report_id" text primary key references "reports" ("id"),
  "by_batch" text not null references "texts_in" ("id"),
  "said_ms" bigint not null);

CREATE TABLE "ussd_sessions" (
  "phone" text primary key,
  "session_id" text,
  "version" integer not null,
  "screen" text not null,
  "seen" text not null,
  "restarted" integer not null,
  "hit_id" text,
  "hops" integer not null,
  "answer" text not null,
  "ended" integer not null,
  "last_ms" bigint not null,
  "expires_ms" bigint not null);
