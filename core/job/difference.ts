// In: two jobs. Out: what was added, changed and removed, record by record. Promise: applying a difference to the
// first job gives the second; reversing twice gives it back; folding then applying equals applying in turn.
import type { Job } from './schema';

const TABLES = ['drawings', 'pages', 'roofs', 'openings', 'edges', 'fittings', 'issues', 'log'] as const;
const VALUES = ['about', 'display', 'work', 'system', 'rates', 'confirmed'] as const;
type Key = `${(typeof TABLES)[number]}/${string}` | (typeof VALUES)[number];

/** From/to per record; undefined stands for "not there". */
export type Difference = ReadonlyMap<Key, { readonly from: unknown; readonly to: unknown }>;

export function differenceOf(before: Job, after: Job): Difference {
  const difference = new Map<Key, { from: unknown; to: unknown }>();
  for (const table of TABLES) {
    const a: Readonly<Record<string, unknown>> = before[table];
    const b: Readonly<Record<string, unknown>> = after[table];
    if (a === b) continue;
    for (const id of new Set([...Object.keys(a), ...Object.keys(b)]))
      if (a[id] !== b[id]) difference.set(`${table}/${id}`, { from: a[id], to: b[id] });
  }
  for (const key of VALUES)
    if (before[key] !== after[key]) difference.set(key, { from: before[key], to: after[key] });
  return difference;
}

export function isEmpty(difference: Difference): boolean {
  return difference.size === 0;
}

export function reverseDifference(difference: Difference): Difference {
  return new Map([...difference].map(([key, { from, to }]) => [key, { from: to, to: from }]));
}

/** One difference for two in a row: the first "from" with the last "to"; what came and went vanishes. */
export function foldDifferences(first: Difference, second: Difference): Difference {
  const folded = new Map(first);
  for (const [key, change] of second) {
    const earlier = folded.get(key);
    const from = earlier ? earlier.from : change.from;
    if (from === change.to) folded.delete(key);
    else folded.set(key, { from, to: change.to });
  }
  return folded;
}

export function applyDifference(job: Job, difference: Difference): Job {
  const next: Record<string, unknown> = { ...job };
  const copied = new Set<string>();
  for (const [key, { to }] of difference) {
    const slash = key.indexOf('/');
    if (slash < 0) {
      next[key] = to;
      continue;
    }
    const table = key.slice(0, slash);
    const id = key.slice(slash + 1);
    if (!copied.has(table)) {
      next[table] = { ...(next[table] as object) };
      copied.add(table);
    }
    const records = next[table] as Record<string, unknown>;
    if (to === undefined) delete records[id];
    else records[id] = to;
  }
  return next as Job;
}
