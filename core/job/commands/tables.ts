// Small moves on the job's tables that the commands share. Each returns a new table.
import type { CommandResult } from './types';

type Table<R> = Readonly<Record<string, R>>;

export function withRecord<R extends { readonly id: string }>(table: Table<R>, record: NoInfer<R>): Table<R> {
  return { ...table, [record.id]: record };
}

export function withRecords<R extends { readonly id: string }>(
  table: Table<R>,
  records: readonly R[],
): Table<R> {
  const next: Record<string, R> = { ...table };
  for (const record of records) next[record.id] = record;
  return next;
}

export function without<R>(table: Table<R>, ids: readonly string[]): Table<R> {
  const next: Record<string, R> = { ...table };
  for (const id of ids) delete next[id];
  return next;
}

/** A record with some fields set, and those taken out that are given as null; `optional` names the ones that may go. */
export function withFields<R extends object, K extends keyof R>(
  record: R,
  fields: { readonly [F in keyof R]?: R[F] | null },
  optional: readonly K[],
): R {
  const next = { ...record, ...fields };
  for (const key of optional) if (next[key] === null) delete next[key];
  return next as R;
}

export function refuse(what: string, todo: string): CommandResult {
  return { refusal: `${what}. ${todo}.` };
}

/** The refusal for an id that is not there any more: a stale selection or a hand-written command. */
export function noSuch(what: string, id: string): CommandResult {
  return refuse(`There is no ${what} “${id}” in this job`, 'Pick one that is there');
}
