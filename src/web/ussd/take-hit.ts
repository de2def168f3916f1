/** The walk of one hit on numbered screens: session, keys, step, screen and records, all in one transaction. */
import type { Trx } from '../../store/commit-together.ts';
import { isInDoubt, loadPhone, type PhoneFacts, screenLang, worldOf } from '../../store/load-phone.ts';
import type { SchemeEntry } from '../../store/load-schemes.ts';
import { talkState, vouchFor } from '../../store/talks.ts';
import { findSession, keepSession, type UssdSession } from '../../store/ussd-sessions.ts';
import { faultNote, phoneTail } from '../../sweeps/fault-note.ts';
import type { Line } from '../../sweeps/line.ts';
import { schemeOf, settingOf } from '../../sweeps/phone-setting.ts';
import { pressAll } from '../../talk/screens/press.ts';
import {
  isUnderWay,
  MAIN,
  SCREEN_VERSION,
  type Screen,
  type ScreenWorld,
} from '../../talk/screens/screen.ts';
import { showScreen } from '../../talk/screens/show.ts';
import { carryOut } from './carry-out.ts';
import { type HitIn, type Way, wayOf } from './way.ts';

/** What the phone shows, and whether the session ends with it. */
export interface HitAnswer {
  readonly text: string;
  readonly ends: boolean;
}

const DAY_MS = 86_400_000;

/** Said when the catalogue fails too. */
const OUR_FAULT = 'Sorry, our mistake. Nothing is recorded.';

/** Where a hit leads: the screen to be kept, what is shown, and whether the session ends. */
interface Led extends HitAnswer {
  readonly screen: Screen;
}

/** Takes the hit and answers it once everything is durable. A fault is logged and answered, and nothing of the hit is kept. */
export async function takeHit(line: Line, hit: HitIn): Promise<HitAnswer> {
  try {
    return await line.together((trx) => walk(trx, line, hit));
  } catch (error) {
    line.log.error({ phone: phoneTail(hit.phone), fault: faultNote(error) }, 'a screen could not be shown');
    return { text: sorry(line), ends: true };
  }
}

async function walk(trx: Trx, line: Line, hit: HitIn): Promise<HitAnswer> {
  const nowMs = line.clock.nowMs();
  const facts = await loadPhone(trx, hit.phone);
  const scheme = schemeOf(line, facts);
  if (facts.people.length === 0) return { text: howToJoin(line, scheme), ends: true };
  if (isInDoubt(facts, nowMs)) return { text: textFirst(line, facts), ends: true };
  await keepVouched(trx, facts, nowMs);
  const session = await findSession(trx, hit.phone, SCREEN_VERSION, nowMs);
  const way = wayOf(session, hit, nowMs);
  if (session && way.kind === 'repeat') return { text: session.answer, ends: session.ended };
  const mayDouble = hit.inputs === 'latest' && hit.hitId === null;
  const its = { ...screenWorldOf(line, facts, scheme, nowMs), mayDouble };
  const led = await lead(trx, line, { facts, its, nowMs }, session, way);
  const { sessionId, input: seen, hitId } = hit;
  await keepSession(trx, {
    ...{ phone: hit.phone, sessionId, version: SCREEN_VERSION, screen: led.screen, hitId },
    seen: way.kind === 'empty' && session ? session.seen : seen,
    restarted: way.kind === 'empty',
    hops: way.kind === 'dial' ? 1 : (session?.hops ?? 0) + 1,
    ...{ answer: led.text, ended: led.ends, lastMs: nowMs },
  });
  return { text: led.text, ends: led.ends };
}

/** Who dials shows that the number is still theirs; once a day is enough to know it. */
async function keepVouched(trx: Trx, { number, row }: PhoneFacts, nowMs: number): Promise<void> {
  if (nowMs - (row?.vouched_ms ?? 0) >= DAY_MS) await vouchFor(trx, number, nowMs);
}

/** What the keys need of the phone. */
interface Held {
  readonly facts: PhoneFacts;
  readonly its: ScreenWorld;
  readonly nowMs: number;
}

async function lead(
  trx: Trx,
  line: Line,
  { facts, its, nowMs }: Held,
  session: UssdSession | null,
  way: Way,
): Promise<Led> {
  const keys = 'keys' in way ? way.keys : [];
  const pressed = pressAll(its, startOf(session, way), keys);
  switch (pressed.kind) {
    case 'end':
      return { screen: MAIN, text: its.speak({ sentences: [{ key: 'screen.bye' }] }), ends: true };
    case 'screen': {
      const { screen, wrong } = pressed;
      return { screen, text: showScreen(its, screen, wrong), ends: false };
    }
    case 'entry': {
      const before = talkState(facts.row, line.talk.version, nowMs);
      const { screen, lang } = await carryOut(trx, line, { facts, before, nowMs }, pressed.entry);
      const spoken: ScreenWorld = { ...its, speak: (saying) => line.voice(lang).say(saying) };
      return { screen, text: showScreen(spoken, screen), ends: false };
    }
  }
}

/** On from the kept screen; on a new dial from the main one, but a session lost on the way is asked about. */
function startOf(session: UssdSession | null, way: Way): Screen {
  if (session === null) return MAIN;
  if (way.kind !== 'dial') return session.screen;
  const lost = !session.ended && isUnderWay(session.screen) && way.keys.length === 0;
  if (!lost) return MAIN;
  return session.screen.at === 'resume' ? session.screen : { at: 'resume', left: session.screen };
}

function screenWorldOf(line: Line, facts: PhoneFacts, scheme: SchemeEntry, nowMs: number): ScreenWorld {
  const voice = line.voice(screenLang(facts));
  const named = scheme.world.languages.filter((one) => line.voice(one).lang === one);
  return {
    world: worldOf(facts, settingOf(line, scheme, nowMs)),
    speak: (saying) => voice.say(saying),
    languages: named.map((one) => ({
      lang: one,
      name: line.voice(one).say({ sentences: [{ key: 'account.language-name' }] }),
    })),
  };
}

/** To a number that the line does not know, in the scheme's first language. */
function howToJoin(line: Line, { world }: SchemeEntry): string {
  const voice = line.voice(world.languages[0] ?? '');
  return voice.say({ sentences: [{ key: 'screen.stranger', values: { code: world.code } }] });
}

/** A number that may be somebody else's: whose it is, is asked by text. */
function textFirst(line: Line, facts: PhoneFacts): string {
  return line.voice(screenLang(facts)).say({ sentences: [{ key: 'screen.text-first' }] });
}

function sorry(line: Line): string {
  try {
    const voice = line.voice(line.schemes()[0]?.world.languages[0] ?? '');
    return voice.say({ sentences: [{ key: 'screen.fault' }] });
  } catch {
    return OUR_FAULT;
  }
}
