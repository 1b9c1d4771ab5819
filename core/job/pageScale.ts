// In: a page of the job, and a place or a roof on it. Out: the scale that holds there, which is the page's own or that
// of a region drawn round a detail. Promise: the only place where it is decided which scale a length is measured by.
import type { PagePoint } from '../geometry/points';
import type { Job, JobPage, JobRoof, JobScale, ScaleRegion } from './schema';

export function scaleAt(page: JobPage, at: PagePoint): JobScale | null {
  return regionAt(page, at)?.scale ?? page.scale;
}

/** The region that holds a place; regions share no ground, and on a shared border the first one counts. */
export function regionAt({ regions = [] }: JobPage, at: PagePoint): ScaleRegion | null {
  return regions.find((region) => holds(region, at)) ?? null;
}

/** Millimetres on the roof per point at a place of the page; null where no scale holds. */
export function mmPerPointAt(page: JobPage | null | undefined, at: PagePoint): number | null {
  return (page && scaleAt(page, at)?.mmPerPoint) ?? null;
}

export type RoofScale =
  | { readonly mmPerPoint: number; readonly region: ScaleRegion | null }
  | { readonly missing: 'scale' }
  /** The outline lies partly in a region; why it cannot be measured, in words. */
  | { readonly straddles: ScaleRegion; readonly why: string };

export function roofScale(
  job: Pick<Job, 'pages' | 'edges'>,
  roof: Pick<JobRoof, 'name' | 'page' | 'outline'>,
): RoofScale {
  const page = job.pages[roof.page];
  if (!page) return { missing: 'scale' };
  let own: ScaleRegion | null = null;
  if (page.regions && page.regions.length > 0) {
    const corners = roof.outline.flatMap((id): PagePoint[] => {
      const at = job.edges[id]?.at;
      return at ? [at] : [];
    });
    for (const region of page.regions) {
      if (corners.length > 0 && corners.every((at) => holds(region, at))) {
        own ??= region;
        continue;
      }
      if (crosses(corners, region))
        return {
          straddles: region,
          why: `“${roof.name}” lies partly in a region with a scale of its own and partly outside it. Keep it on one side, or draw the region round all of it on the Plan stage.`,
        };
    }
  }
  const scale = own ? own.scale : page.scale;
  return scale ? { mmPerPoint: scale.mmPerPoint, region: own } : { missing: 'scale' };
}

/** The roof's millimetres per point, or null where it has none that it could be measured by. */
export function mmPerPointOf(
  job: Pick<Job, 'pages' | 'edges'>,
  roof: Pick<JobRoof, 'name' | 'page' | 'outline'> | undefined,
): number | null {
  const scale = roof && roofScale(job, roof);
  return scale && 'mmPerPoint' in scale ? scale.mmPerPoint : null;
}

/** Why a change is refused: it leaves a roof partly in a region that before lay in one scale. */
export function newlyStraddling(before: Job, after: Job): string | null {
  if (before.edges === after.edges && before.pages === after.pages && before.roofs === after.roofs)
    return null;
  for (const roof of Object.values(after.roofs)) {
    if (!after.pages[roof.page]?.regions?.length) continue;
    const now = roofScale(after, roof);
    if (!('straddles' in now)) continue;
    const then = before.roofs[roof.id];
    if (then && 'straddles' in roofScale(before, then)) continue;
    return now.why;
  }
  return null;
}

/** The ground of a region; a page's regions share none of it. */
export type RegionBox = Pick<ScaleRegion, 'low' | 'high'>;

function holds({ low, high }: RegionBox, [x, y]: PagePoint): boolean {
  return x >= low[0] && x <= high[0] && y >= low[1] && y <= high[1];
}

/** A side of the ring runs through the inside of the box; running along its border or round it does not count. */
function crosses(corners: readonly PagePoint[], box: RegionBox): boolean {
  return corners.some((a, k) => runsThrough(a, corners[(k + 1) % corners.length] ?? a, box));
}

/** Clips the stretch to the box (Liang and Barsky) and asks whether any of it is left. */
function runsThrough(a: PagePoint, b: PagePoint, { low, high }: RegionBox): boolean {
  let [from, to] = [0, 1];
  for (const axis of [0, 1] as const) {
    const run = b[axis] - a[axis];
    if (run === 0) {
      if (a[axis] <= low[axis] || a[axis] >= high[axis]) return false;
      continue;
    }
    const [t0, t1] = [(low[axis] - a[axis]) / run, (high[axis] - a[axis]) / run];
    from = Math.max(from, Math.min(t0, t1));
    to = Math.min(to, Math.max(t0, t1));
  }
  return from < to;
}
