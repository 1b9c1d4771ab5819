// In: two issues and the log. Out: which entries of the earlier one hold on the later one too, and which do not map.
// Promise: an entry is carried only where the later issue has the same thing at the same place, so that a passed test
// never moves to a seam that was not tested; everything else is listed with the reason.
import { distance } from '../geometry/ring';
import type { JobIssue, LogEntry } from './schema';

/** Ends nearer than this are the same place on a roof; a weld is 40 mm wide. */
export const SAME_PLACE_MM = 10;

export interface Carried {
  readonly entry: LogEntry;
  /** Its seam or sheet in the later issue. */
  readonly on: string;
}

export interface Unmapped {
  readonly entry: LogEntry;
  readonly why: string;
}

export function carryLog(
  entries: readonly LogEntry[],
  issues: readonly JobIssue[],
  later: JobIssue,
): { readonly carried: readonly Carried[]; readonly unmapped: readonly Unmapped[] } {
  const carried: Carried[] = [];
  const unmapped: Unmapped[] = [];
  for (const entry of entries) {
    // A strip pulled on scrap has no place on the roof; it proves the settings of its day and nothing else.
    if (entry.roof === null || entry.on === null || entry.issue > later.number) continue;
    if (entry.issue === later.number) {
      carried.push({ entry, on: entry.on });
      continue;
    }
    const issue = issues.find((one) => one.number === entry.issue);
    const found = issue ? placeIn(entry, issue, later) : { why: `issue ${entry.issue} is not in the job` };
    if ('on' in found) carried.push({ entry, on: found.on });
    else unmapped.push({ entry, why: found.why });
  }
  return { carried, unmapped };
}

type Found = { readonly on: string } | { readonly why: string };

function placeIn(entry: LogEntry, issue: JobIssue, later: JobIssue): Found {
  const before = issue.roofs.find((roof) => roof.roof === entry.roof);
  const after = later.roofs.find((roof) => roof.roof === entry.roof);
  if (!before || !after) return { why: `its roof is not in issue ${later.number}` };
  if (entry.kind === 'laid') {
    const sheet = before.sheets.find((one) => one.id === entry.on);
    if (!sheet) return { why: `${entry.on} is not in issue ${issue.number}` };
    const same = after.sheets.find((one) => samePlaces(one.corners, sheet.corners));
    return same
      ? { on: same.id }
      : { why: `no sheet of issue ${later.number} lies where ${sheet.id} was laid` };
  }
  const seam = before.seams.find((one) => one.id === entry.on);
  if (!seam) return { why: `${entry.on} is not in issue ${issue.number}` };
  const same = after.seams.find(
    (one) =>
      one.kind === seam.kind &&
      (samePlaces([one.from, one.to], [seam.from, seam.to]) ||
        samePlaces([one.to, one.from], [seam.from, seam.to])),
  );
  if (same) return { on: same.id };
  const crossed = after.seams
    .filter((one) => entry.at !== null && passes(one, entry.at))
    .map((one) => one.id);
  return {
    why:
      crossed.length === 0
        ? `no seam of issue ${later.number} lies where ${seam.id} was`
        : `${crossed.join(', ')} of issue ${later.number} only shares a part with ${seam.id}, so nothing that was done there is taken over`,
  };
}

type Place = readonly [number, number];

function samePlaces(a: readonly Place[], b: readonly Place[]): boolean {
  return a.length === b.length && a.every((place, k) => distance(place, b[k] as Place) <= SAME_PLACE_MM);
}

function passes({ from, to }: { readonly from: Place; readonly to: Place }, at: Place): boolean {
  return Math.abs(distance(from, at) + distance(at, to) - distance(from, to)) < 1;
}
