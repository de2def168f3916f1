/** How a carrier's numbered screens look on the wire: which fields carry what, and how answers are written. Set, not coded. */

export interface UssdShape {
  /** `joined`: all inputs so far with `*` between them; `latest`: the newest input alone. */
  readonly inputs: 'joined' | 'latest';
  /** How the body of a POST is written; a GET has its fields in the query. */
  readonly body: 'form' | 'json';
  readonly fields: {
    readonly phone: string;
    /** Null where there is no id of the session. */
    readonly session: string | null;
    readonly input: string;
    /** An id of each hit, where there is one. */
    readonly hit: string | null;
  };
  /** What people dial, without the last `#`, for carriers that send it as the first input. */
  readonly code: string | null;
  readonly answer: UssdAnswer;
  /** The secret that every request must carry, in a header or query field of this name; null lets in only this machine. */
  readonly secret: { readonly name: string; readonly value: string } | null;
}

/** Plain text behind a word for going on or ending, or JSON with that word in a field of its own. */
export type UssdAnswer =
  | { readonly as: 'text'; readonly goOn: string; readonly end: string }
  | {
      readonly as: 'json';
      readonly text: string;
      readonly state: string;
      readonly goOn: string;
      readonly end: string;
    };

/** The common form (CARRIERS: sessionId, phoneNumber and text in a form, answered by "CON …" or "END …"). */
export const COMMON_SHAPE: UssdShape = {
  inputs: 'joined',
  body: 'form',
  fields: { phone: 'phoneNumber', session: 'sessionId', input: 'text', hit: null },
  code: null,
  answer: { as: 'text', goOn: 'CON ', end: 'END ' },
  secret: null,
};
