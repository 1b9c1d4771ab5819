// The commands that a drawn fall becomes: one for the whole roof, one of a part of it, or four ways to a drain.
import { mmPerPointOf } from '../../../core/job/pageScale';
import type { PagePoint } from '../../../core/geometry/points';
import type { JobRoof } from '../../../core/job/schema';
import { middleOf } from '../../../core/geometry/ring';
import { fourWayFall } from '../../../core/roof/water';
import { toPagePoint, toRoofPoint, toRoofSpace } from '../../../core/plan/toRoof';
import { formatAngle, toDegrees, turn } from '../../../core/units/angles';
import { nextMarkIds } from '../../document/ids';
import { distance, ringArea } from '../../document/rings';
import { roofUnder } from '../addOpening/opening';
import { refuse, say } from '../types';
import type { Effect, ToolView } from '../types';

/** From high to low; `ring` is the part that falls so, or null for the whole roof. */
export function fallByArrow(
  high: PagePoint,
  low: PagePoint,
  ring: readonly PagePoint[] | null,
  view: ToolView,
): readonly Effect[] {
  if (distance(high, low) * view.pxPerPoint < 2)
    return [refuse('High and low are in one place: click the low end somewhere else.')];
  const id = ring ? roofOf(ring, view) : (roofUnder(high, view) ?? roofUnder(low, view));
  const roof = id === null ? undefined : view.job.roofs[id];
  if (!roof) return [refuse('This fall lies on no roof: draw it inside an outline.')];
  return fallOf(roof, ring, turn(toDegrees(Math.atan2(low[1] - high[1], low[0] - high[0])), 360), view);
}

export type FallLine = 'low' | 'high';

/** Water runs square to a low line, or away from a high one, over the whole roof or the part that `ring` holds. */
export function fallByLine(
  which: FallLine,
  a: PagePoint,
  b: PagePoint,
  ring: readonly PagePoint[] | null,
  view: ToolView,
): readonly Effect[] {
  const length = distance(a, b);
  if (length * view.pxPerPoint < 2)
    return [refuse('Both ends are in one place: click the other end somewhere else.')];
  const square: PagePoint = [(a[1] - b[1]) / length, (b[0] - a[0]) / length];
  const id = ring ? roofOf(ring, view) : roofBeside(a, b, square, view);
  const roof = id === null ? undefined : view.job.roofs[id];
  if (!roof) return [refuse('This line lies on no roof: draw it along or inside an outline.')];
  const middle = middleOf(ring ?? cornersOf(roof, view));
  const beyond = (middle[0] - a[0]) * square[0] + (middle[1] - a[1]) * square[1];
  if (Math.abs(beyond) * view.pxPerPoint < 2)
    return [refuse('This line halves what falls to it: draw each side as a part, or an arrow.')];
  // Towards the low line from where most of it lies; away from the high one.
  const sign = beyond > 0 === (which === 'high') ? 1 : -1;
  return fallOf(roof, ring, turn(toDegrees(Math.atan2(sign * square[1], sign * square[0])), 360), view);
}

function fallOf(
  roof: JobRoof,
  ring: readonly PagePoint[] | null,
  downhill: number,
  view: ToolView,
): readonly Effect[] {
  const { ratio } = view.options.fall;
  const said = `falls towards ${formatAngle(downhill)}${ratio === null ? ', slope not given' : ''}.`;
  if (!ring)
    return [
      {
        do: 'run',
        commands: [{ kind: 'setRoof', roof: roof.id, fields: { fall: { downhill, ratio } } }],
        label: 'Draw fall',
      },
      say(`${roof.name} ${said}${roof.facets.length > 0 ? ' Its parts keep their own falls.' : ''}`),
    ];
  const [facet = 'w1'] = nextMarkIds(view.job, 'w', 1);
  // A part drawn later goes before those drawn earlier: the first that holds a place gives its fall.
  const facets = [{ id: facet, ring, downhill, ratio }, ...roof.facets];
  return [
    { do: 'run', commands: [{ kind: 'setFacets', roof: roof.id, facets }], label: 'Draw part with its fall' },
    say(`A part of ${roof.name} ${said}`),
  ];
}

/** Every side of the outline falls to the drain under the pointer. */
export function fallToDrain(at: PagePoint, view: ToolView): readonly Effect[] {
  const hit = view.hit(at);
  const drain = hit?.kind === 'fitting' ? view.job.fittings[hit.id] : undefined;
  const roof = drain && view.job.roofs[drain.roof];
  if (!drain || drain.kind !== 'drain' || !roof)
    return [refuse('No drain is here: click on a drain, or place one first with Fitting.')];
  const mmPerPoint = mmPerPointOf(view.job, roof);
  if (!mmPerPoint) return [refuse('The page has no scale yet: set it on the Plan stage first.')];
  const corners = cornersOf(roof, view);
  const outline = ringArea(corners) < 0 ? [...corners].reverse() : corners;
  const ids = nextMarkIds(view.job, 'w', outline.length);
  const facets = fourWayFall(
    toRoofSpace(outline, mmPerPoint),
    toRoofPoint(drain.at, mmPerPoint),
    view.options.fall.ratio,
    (side) => ids[side] ?? `w0${side}`,
  ).map((facet) => ({ ...facet, ring: facet.ring.map((at) => toPagePoint(at, mmPerPoint)) }));
  if (facets.length === 0)
    return [refuse('No side of this outline faces the drain: draw the parts with their falls instead.')];
  const before = roof.facets.length;
  const unseen = outline.length - facets.length;
  const said = [
    `${facets.length} sides of ${roof.name} fall to the drain.`,
    unseen > 0 ? `${unseen} do not face it and got no part of their own: check them.` : '',
    before > 0 ? `The ${before} parts drawn before were replaced; undo brings them back.` : '',
  ];
  return [
    {
      do: 'run',
      commands: [{ kind: 'setFacets', roof: roof.id, facets }],
      label: 'Fall four ways to a drain',
    },
    say(said.filter(Boolean).join(' ')),
  ];
}

/** The roof that a part lies on, by its first corner inside one, since corners may stand on the very edge. */
function roofOf(ring: readonly PagePoint[], view: ToolView): string | null {
  return firstRoof([middleOf(ring), ...ring], view);
}

/** A low or high line often is an edge of the roof: a little to either side of it is looked at too. */
function roofBeside(a: PagePoint, b: PagePoint, square: PagePoint, view: ToolView): string | null {
  const middle = middleOf([a, b]);
  const off = 4 / view.pxPerPoint;
  const beside = [off, -off].map((by): PagePoint => [middle[0] + by * square[0], middle[1] + by * square[1]]);
  return firstRoof([middle, ...beside, a, b], view);
}

function firstRoof(places: readonly PagePoint[], view: ToolView): string | null {
  for (const at of places) {
    const roof = roofUnder(at, view);
    if (roof !== null) return roof;
  }
  return null;
}

function cornersOf(roof: JobRoof, view: ToolView): readonly PagePoint[] {
  return roof.outline.flatMap((id): PagePoint[] => {
    const corner = view.job.edges[id]?.at;
    return corner ? [corner] : [];
  });
}
