// What went wrong that a person can do something about: where, what, and what to do. Plain data, so that it
// survives being sent between processes; turned into an Error only where a promise has to be refused.

export const FAILURE_CODES = [
  'not-found',
  'not-a-file',
  'not-readable',
  'not-writable',
  'disk-full',
  'too-large',
  'damaged',
  'hostile',
  'out-of-range',
  'unknown-target',
  'bad-request',
  'not-allowed',
  'unexpected',
] as const;

export type FailureCode = (typeof FAILURE_CODES)[number];

export interface Failure {
  readonly code: FailureCode;
  /** The file, field or place. */
  readonly where: string;
  /** What is wrong, and what to do, each without the closing full stop. */
  readonly what: string;
  readonly todo: string;
}

export type Outcome<T> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly failure: Failure };

export function done<T>(value: T): Outcome<T> {
  return { ok: true, value };
}

export function failed(code: FailureCode, where: string, what: string, todo: string): Outcome<never> {
  return { ok: false, failure: { code, where, what, todo } };
}

/** `WHERE: WHAT IS WRONG. WHAT TO DO.` on one line, whatever the parts hold. */
export function sentenceOf(failure: Failure): string {
  const line = `${failure.where}: ${closed(failure.what)} ${closed(failure.todo)}`;
  return line.replace(/\s+/g, ' ').trim();
}

/** For the sides that answer with a promise: the message is the sentence, the code is in `name`. */
export function errorOf(failure: Failure): Error {
  const error = new Error(sentenceOf(failure));
  error.name = `Failure(${failure.code})`;
  return error;
}

const closed = (text: string): string => (/[.!?]$/.test(text.trim()) ? text.trim() : `${text.trim()}.`);
