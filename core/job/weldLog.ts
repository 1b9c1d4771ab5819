// In: issued layouts and the log. Out: verdicts, the state of every seam on a date, what must be probed again, and
// metres by day. Promise: a state rests on entries that hold at that place of that issue; a fail in the roof marks
// back to the last good test.
import { judgePeel, type Verdict } from '../welding/peel';
import { stripReasons } from '../welding/strips';
import { carryLog, type Carried } from './issueCarry';
import type { Job, JobIssue, LogEntry } from './schema';

export function issuesOf(job: Pick<Job, 'issues'>): readonly JobIssue[] {
  return Object.values(job.issues).sort((a, b) => a.number - b.number);
}

export function logOf(job: Pick<Job, 'log'>): readonly LogEntry[] {
  return Object.values(job.log).sort((a, b) => a.number - b.number);
}

export const SEAM_STATES = [
  'planned',
  'laid',
  'welded',
  'probed',
  'tested',
  'repaired',
  'to be re-probed',
] as const;
export type SeamState = (typeof SEAM_STATES)[number];

export interface SeamStanding {
  readonly roof: string;
  readonly seam: string;
  readonly state: SeamState;
  /** Of the entry behind it; null while planned. */
  readonly since: string | null;
}

/** null for what is no trial weld. */
export function verdictOf(entry: Pick<LogEntry, 'kind' | 'result' | 'reading' | 'target'>): Verdict | null {
  if ((entry.kind !== 'strip' && entry.kind !== 'cut-out') || entry.result === null) return null;
  const verdict = judgePeel(entry.result, entry.reading, entry.target);
  if (verdict.passes || entry.kind === 'strip') return verdict;
  return {
    ...verdict,
    follow: `${verdict.follow} Probe again every seam back to the last good test, and patch the cut-out.`,
  };
}

/** Every seam of an issue as it stands at the end of a date. */
export function seamStates(
  issue: JobIssue,
  issues: readonly JobIssue[],
  log: readonly LogEntry[],
  date: string,
): readonly SeamStanding[] {
  const until = log.filter((entry) => entry.date <= date && entry.issue <= issue.number);
  const { carried } = carryLog(until, issues, issue);
  const again = new Set(toProbeAgain(issue, issues, until).map(({ roof, seam }) => `${roof}/${seam}`));
  const bySeam = new Map<string, Carried[]>();
  for (const one of carried) {
    const key = `${one.entry.roof}/${one.on}`;
    const list = bySeam.get(key);
    if (list) list.push(one);
    else bySeam.set(key, [one]);
  }
  return issue.roofs.flatMap(({ roof, seams }) =>
    seams.map((seam): SeamStanding => {
      const own = (bySeam.get(`${roof}/${seam.id}`) ?? []).map(({ entry }) => entry);
      const laid = seam.between.map(
        (sheet) => (bySeam.get(`${roof}/${sheet}`) ?? []).find(({ entry }) => entry.kind === 'laid')?.entry,
      );
      const last = own.filter((entry) => entry.kind !== 'laid').at(-1);
      const head = { roof, seam: seam.id };
      if (again.has(`${roof}/${seam.id}`))
        return { ...head, state: 'to be re-probed', since: last?.date ?? null };
      const best = standing(own);
      if (best) return { ...head, ...best };
      if (laid.every((entry) => entry !== undefined))
        return {
          ...head,
          state: 'laid',
          since:
            laid
              .map((entry) => entry?.date ?? '')
              .sort()
              .at(-1) ?? null,
        };
      return { ...head, state: 'planned', since: null };
    }),
  );
}

/** The furthest that a seam's own entries bring it; a repair counts until it is probed or tested anew. */
function standing(own: readonly LogEntry[]): { readonly state: SeamState; readonly since: string } | null {
  let found: { state: SeamState; since: string } | null = null;
  const rank: Readonly<Record<string, number>> = { welded: 1, probed: 2, tested: 3, repaired: 4 };
  for (const entry of own) {
    const state: SeamState | null =
      entry.kind === 'welded' || entry.kind === 'probed' || entry.kind === 'repaired'
        ? entry.kind
        : verdictOf(entry)?.passes && entry.kind === 'cut-out'
          ? 'tested'
          : null;
    if (!state) continue;
    const afterRepair = found?.state === 'repaired' && state !== 'welded';
    if (!found || afterRepair || (rank[state] ?? 0) >= (rank[found.state] ?? 0))
      found = { state, since: entry.date };
  }
  return found;
}

export interface ProbeAgain {
  readonly roof: string;
  readonly seam: string;
  /** The failed test behind it. */
  readonly entry: LogEntry;
}

/** A failed test in the roof: its seam, what the same machine welded since its last good test by the log, and what
 * the plan puts between the two. Never fewer: a seam is cleared only by being probed, repaired or tested afterwards. */
export function toProbeAgain(
  issue: JobIssue,
  issues: readonly JobIssue[],
  log: readonly LogEntry[],
): readonly ProbeAgain[] {
  const { carried } = carryLog(log, issues, issue);
  const placed = new Map(carried.map(({ entry, on }) => [entry.id, on]));
  const found = new Map<string, ProbeAgain>();
  const ordered = [...log].sort((a, b) => a.number - b.number);
  for (const fail of ordered) {
    const on = placed.get(fail.id);
    if (
      fail.kind !== 'cut-out' ||
      on === undefined ||
      fail.roof === null ||
      verdictOf(fail)?.passes !== false
    )
      continue;
    const good = ordered
      .filter(
        (entry) => entry.number < fail.number && entry.machine === fail.machine && verdictOf(entry)?.passes,
      )
      .at(-1);
    const seams = issue.roofs.flatMap(({ roof, seams: list }) => list.map((seam) => ({ roof, seam })));
    const failed = seams.find(({ roof, seam }) => roof === fail.roof && seam.id === on)?.seam;
    const goodOn = good ? placed.get(good.id) : undefined;
    const start = seams.find(({ roof, seam }) => roof === good?.roof && seam.id === goodOn)?.seam.order;
    const logged = new Set(
      ordered
        .filter(
          (entry) =>
            entry.kind === 'welded' &&
            entry.machine === fail.machine &&
            entry.number > (good?.number ?? 0) &&
            entry.number < fail.number,
        )
        .map((entry) => `${entry.roof}/${placed.get(entry.id)}`),
    );
    for (const { roof, seam } of seams) {
      const planned =
        failed !== undefined &&
        seam.method === failed.method &&
        seam.order <= failed.order &&
        (start === undefined ? seam.day === failed.day : seam.order > start);
      if (planned || seam === failed || logged.has(`${roof}/${seam.id}`))
        found.set(`${roof}/${seam.id}`, { roof, seam: seam.id, entry: fail });
    }
  }
  return [...found.values()].filter(({ roof, seam, entry }) =>
    ordered.every(
      (later) =>
        later.number <= entry.number ||
        later.roof !== roof ||
        placed.get(later.id) !== seam ||
        !(
          later.kind === 'probed' ||
          later.kind === 'repaired' ||
          (later.kind === 'cut-out' && verdictOf(later)?.passes)
        ),
    ),
  );
}

export interface DayProgress {
  readonly day: number;
  /** m planned for the day, and of those m that are welded by the log. */
  readonly planned: number;
  readonly welded: number;
}

export function progressByDay(
  issue: JobIssue,
  issues: readonly JobIssue[],
  log: readonly LogEntry[],
): readonly DayProgress[] {
  const { carried } = carryLog(log, issues, issue);
  const done = new Set(
    carried.filter(({ entry }) => entry.kind === 'welded').map(({ entry, on }) => `${entry.roof}/${on}`),
  );
  const days = new Map<number, { planned: number; welded: number }>();
  for (const { roof, seams } of issue.roofs)
    for (const seam of seams) {
      const day = days.get(seam.day) ?? { planned: 0, welded: 0 };
      days.set(seam.day, day);
      day.planned += seam.length / 1000;
      if (done.has(`${roof}/${seam.id}`)) day.welded += seam.length / 1000;
    }
  return [...days].sort((a, b) => a[0] - b[0]).map(([day, metres]) => ({ day, ...metres }));
}

/** Why a strip is due before welding with these, by the last good one in the log. */
export function stripDue(
  log: readonly LogEntry[],
  now: Pick<LogEntry, 'date' | 'membrane' | 'machine' | 'operator' | 'lead' | 'ambient'>,
): readonly string[] {
  const tested = [...log]
    .sort((a, b) => a.number - b.number)
    .filter((entry) => entry.kind === 'strip' && entry.date === now.date && entry.machine === now.machine)
    .at(-1);
  if (tested && verdictOf(tested)?.passes === false) return ['the last strip failed'];
  return stripReasons(tested ?? null, now);
}
