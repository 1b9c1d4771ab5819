// The plan's snapping as the tools ask for it: the page's lines, the job's own corners, and the last snap held.
import { snapPoint } from '../../core/plan/snap';
import type { PageIndex } from '../../core/plan/pageIndex';
import type { Snap } from '../../core/plan/snap';
import type { Job } from '../../core/job/schema';
import { ringsOnPage } from '../document/rings';
import type { SnapMark, SnapRequest } from './types';

const SNAP_PX = 9;

export interface SnapContext {
  readonly job: Job;
  readonly page: string;
  readonly index: PageIndex | null;
  readonly pxPerPoint: number;
}

/** Remembers the last snap, so that one that is held is let go later than it was caught. */
export function createSnapper(): (request: SnapRequest, context: SnapContext) => SnapMark | null {
  let last: Snap | null = null;
  return ({ at, keys, placed, except }, { job, page, index, pxPerPoint }) => {
    if (keys.alt && !keys.shift) {
      last = null;
      return null;
    }
    const corners = ringsOnPage(job, page).flatMap((ring) =>
      ring.edges.filter((edge) => !except.includes(edge.id)).map((edge) => edge.at),
    );
    last = snapPoint(keys.alt ? null : index, {
      pointer: at,
      radius: SNAP_PX / pxPerPoint,
      placed,
      corners: keys.alt ? [] : corners,
      ortho: keys.shift ? 'locked' : 'free',
      last,
    });
    return last && { at: last.at, kind: last.label, guides: last.guides };
  };
}
