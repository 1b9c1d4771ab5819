// The commands that a drawn fall becomes: one for the whole roof, one of a part of it, or four ways to a drain.
import { mmPerPointOf } from '../../../core/job/pageScale';
import type { PagePoint } from '../../../core/geometry/points';
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
  const downhill = turn(toDegrees(Math.atan2(low[1] - high[1], low[0] - high[0])), 360);
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
  const corners = roof.outline.flatMap((id): PagePoint[] => {
    const corner = view.job.edges[id]?.at;
    return corner ? [corner] : [];
  });
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
  const middle: PagePoint = [
    ring.reduce((sum, [x]) => sum + x, 0) / ring.length,
    ring.reduce((sum, [, y]) => sum + y, 0) / ring.length,
  ];
  for (const at of [middle, ...ring]) {
    const roof = roofUnder(at, view);
    if (roof !== null) return roof;
  }
  return null;
}
