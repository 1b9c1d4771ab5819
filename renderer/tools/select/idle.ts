// Picking things, and what can be done to what is picked: delete, nudge, a typed length for an edge.
import type { Command } from '../../../core/job/commands/types';
import { mmPerPointOf } from '../../../core/job/pageScale';
import { parseLength } from '../../../core/units/lengths';
import { nextId } from '../../document/ids';
import { pickedIds } from '../../document/picked';
import { distance, edgeEnds, nearestOn, ringOfEdge } from '../../document/rings';
import type { PagePoint } from '../../../core/geometry/points';
import { pinMoved, pinOf } from '../endLaps';
import { sayDistance } from '../typing';
import { refuse, stay } from '../types';
import { moveLine, moveRoof } from './moveRoof';
import type { Effect, StateSpec, Step, ToolView } from '../types';

export interface SelectIdle {
  readonly at: 'select.idle';
}

const HERE: SelectIdle = { at: 'select.idle' };

export const selectIdle: StateSpec<SelectIdle> = {
  on: (state, event, view) => {
    switch (event.type) {
      case 'down':
        return stay({ at: 'select.pointing', from: event.at, over: view.hit(event.at), keys: event.keys });
      case 'double':
        return insertCorner(event.at, view);
      case 'delete':
      case 'back':
        return removePicked(view);
      case 'nudge':
        return nudge(event.direction, event.mm, view);
      case 'typed':
        return setEdgeLength(event.text, view);
      default:
        return stay(state);
    }
  },
  cancel: (state, view) =>
    view.selection.length > 0 ? stay(state, { do: 'pick', selection: [] }) : stay(state),
  complete: (state) => stay(state),
  interrupt: (state) => stay(state),
  show: (_state, view) => ({
    hint: hintFor(view),
    typing: typesEdgeLength(view) ? 'Edge length' : null,
    cursor: 'default',
    marks: [],
  }),
};

function typesEdgeLength({ job, selection }: ToolView): boolean {
  const [edge, ...more] = selection.filter(({ kind }) => kind === 'edge');
  return edge !== undefined && more.length === 0 && mmPerPointOf(job, job.roofs[edge.roof ?? '']) !== null;
}

function hintFor(view: ToolView): string {
  const [one, ...more] = view.selection;
  if (!one) return '';
  if (more.length > 0) return `${view.selection.length} picked. Shift-click adds or takes away.`;
  switch (one.kind) {
    case 'edge': {
      const ends = edgeEnds(view.job, one.id);
      const length = ends ? sayDistance(distance(ends[0].at, ends[1].at), ends[0].at, view) : '';
      return `Edge of ${length}. Drag moves it sideways, double-click puts a corner in, typing sets its length.`;
    }
    case 'corner':
      return 'Corner. Drag or arrow keys move it, Delete takes it out.';
    case 'opening':
      return 'Opening. Drag its inside to move it, Delete takes it out.';
    case 'fitting':
      return 'Fitting. Drag moves it, Delete takes it out.';
    case 'pin':
      return 'Pinned end lap. Drag or arrow keys move it along its course, Delete lets go of it.';
    case 'lap':
      return view.endLap(one) ? 'End lap. Drag or arrow keys move it along its course and pin it there.' : '';
    case 'line':
      return 'Line on the roof. Drag moves it, arrow keys too, Delete takes it out.';
    case 'roof':
      return 'Roof. Drag its edges and corners, or its inside to move it whole; Delete takes it out.';
    default:
      return '';
  }
}

function insertCorner(at: PagePoint, view: ToolView): Step {
  const over = view.hit(at);
  if (over?.kind !== 'edge') return stay(HERE);
  const ends = edgeEnds(view.job, over.id);
  if (!ends) return stay(HERE);
  const edge = nextId(view.job, 'e');
  const point = nearestOn(ends[0].at, ends[1].at, view.snap(snapFor(at))?.at ?? at);
  return stay(
    HERE,
    {
      do: 'run',
      commands: [{ kind: 'insertCorner', after: over.id, edge, at: point }],
      label: 'Insert corner',
    },
    { do: 'pick', selection: [{ kind: 'corner', id: edge, roof: over.roof }] },
  );
}

const snapFor = (at: PagePoint) => ({
  at,
  keys: { shift: false, alt: false, ctrl: false },
  placed: [],
  except: [],
});

function removePicked(view: ToolView): Step {
  const commands = view.selection.flatMap((one): readonly Command[] => {
    switch (one.kind) {
      case 'roof':
        return [{ kind: 'removeRoof', roof: one.id }];
      case 'opening':
        return [{ kind: 'removeOpening', opening: one.id }];
      case 'fitting':
        return [{ kind: 'removeFitting', fitting: one.id }];
      case 'corner':
        return [{ kind: 'removeCorner', edge: one.id }];
      case 'pin':
        return one.roof === null ? [] : [{ kind: 'unpinEndLap', roof: one.roof, index: Number(one.id) }];
      case 'line':
        return one.roof === null ? [] : [{ kind: 'removeLine', roof: one.roof, line: one.id }];
      default:
        return [];
    }
  });
  if (commands.length === 0) {
    const why: readonly Effect[] = view.selection.some((p) => p.kind === 'edge')
      ? [refuse('An edge is held by its two corners: delete a corner, or the whole roof or opening.')]
      : [];
    return stay(HERE, ...why);
  }
  const label = commands.length === 1 ? `Remove ${view.selection[0]?.kind ?? ''}` : 'Remove what is picked';
  return stay(HERE, { do: 'run', commands, label });
}

function nudge(direction: PagePoint, mm: number, view: ToolView): Step {
  const [only, ...more] = view.selection;
  const mmPerPoint = mmPerPointOf(view.job, view.job.roofs[only?.roof ?? '']);
  if (mmPerPoint === null) return stay(HERE);
  const by: PagePoint = [(direction[0] * mm) / mmPerPoint, (direction[1] * mm) / mmPerPoint];
  const lap = only && more.length === 0 ? view.endLap(only) : null;
  if (lap) {
    const pinned = pinMoved(lap, by, view);
    if (pinned.length === 0) return stay(HERE);
    return stay(
      HERE,
      { do: 'run', commands: pinned, label: 'Move end lap' },
      { do: 'pick', selection: [pinOf(lap, view.job)] },
    );
  }
  const commands = view.selection.flatMap((one) => movedBy(one.kind, one.id, by, view));
  return commands.length === 0 ? stay(HERE) : stay(HERE, { do: 'run', commands, label: 'Nudge' });
}

function movedBy(kind: string, id: string, by: PagePoint, view: ToolView): readonly Command[] {
  const shifted = (at: PagePoint): PagePoint => [at[0] + by[0], at[1] + by[1]];
  const { edges, fittings, openings } = view.job;
  if (kind === 'corner' && edges[id]) return [{ kind: 'moveCorner', edge: id, at: shifted(edges[id].at) }];
  if (kind === 'edge')
    return (edgeEnds(view.job, id) ?? []).map((end) => ({
      kind: 'moveCorner',
      edge: end.id,
      at: shifted(end.at),
    }));
  if (kind === 'fitting' && fittings[id])
    return [{ kind: 'setFitting', fitting: id, fields: { at: shifted(fittings[id].at) } }];
  if (kind === 'opening' && openings[id]) return [{ kind: 'moveRing', edges: openings[id].ring, by }];
  if (kind === 'roof') return moveRoof(view.job, id, by);
  if (kind === 'line') return moveLine(view.job, id, by);
  return [];
}

/** The far side moves along, so that a rectangle stays one. */
function setEdgeLength(text: string, view: ToolView): Step {
  const [id, ...more] = pickedIds(view.selection, 'edge');
  const ring = id === undefined ? null : ringOfEdge(view.job, id);
  const mmPerPoint = mmPerPointOf(view.job, view.job.roofs[ring?.roof ?? '']);
  if (!id || more.length > 0 || !mmPerPoint || !ring)
    return stay(HERE, refuse('Pick one edge, then type its length.'));
  const length = parseLength(text, view.job.display);
  if ('fault' in length) return stay(HERE, refuse(length.fault));
  if (length.mm <= 0) return stay(HERE, refuse('An edge has a length: type more than zero.'));
  const k = ring.edges.findIndex((e) => e.id === id);
  const at = (step: number) => ring.edges[(k + step) % ring.edges.length];
  const [from, to, beyond] = [at(0), at(1), at(2)];
  if (!from || !to || !beyond) return stay(HERE);
  const now = distance(from.at, to.at);
  const grow = length.mm / mmPerPoint - now;
  const by: PagePoint = [((to.at[0] - from.at[0]) / now) * grow, ((to.at[1] - from.at[1]) / now) * grow];
  const commands = [to, beyond].map((corner): Command => ({
    kind: 'moveCorner',
    edge: corner.id,
    at: [corner.at[0] + by[0], corner.at[1] + by[1]],
  }));
  return stay(HERE, { do: 'run', commands, label: 'Set edge length' });
}
