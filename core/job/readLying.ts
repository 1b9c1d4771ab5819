// In: issued layouts and the log. Out: the sheets of a roof that lie already, as they were issued. Promise: a sheet
// lies from when the log says that it was laid, or that a weld at it was made.
import type { LyingSheet } from '../sheets/refitLayout';
import { issuesOf, logOf } from './weldLog';
import type { Job } from './schema';

export function readLying(issues: Job['issues'], log: Job['log'], roof: string): readonly LyingSheet[] {
  const byNumber = new Map(issuesOf({ issues }).map((issue) => [issue.number, issue]));
  const lying = new Map<string, LyingSheet>();
  for (const entry of logOf({ log })) {
    if (entry.roof !== roof || entry.on === null) continue;
    const issued = byNumber.get(entry.issue)?.roofs.find((one) => one.roof === roof);
    const names =
      entry.kind === 'laid' ? [entry.on] : (issued?.seams.find(({ id }) => id === entry.on)?.between ?? []);
    for (const sheet of issued?.sheets ?? [])
      if (names.includes(sheet.id))
        lying.set(sheet.corners.join(' '), { id: sheet.id, corners: sheet.corners });
  }
  return [...lying.values()];
}
