// In: one roof's results and the weld plan. Out: plain shapes in layers, lowest first. Promise: every shape
// carries the id of the object it shows, and nothing is decided again when it is painted.
import type { RoofPoint } from '../geometry/points';
import { middleOf } from '../geometry/ring';
import type { Fastening } from '../fastening/types';
import type { Edge, Roof } from '../roof/types';
import type { EndLap, Seams, SideLap } from '../seams/types';
import type { Layout, Sheet } from '../sheets/types';
import type { WeldPlan } from '../welding/types';
import { toDegrees } from '../units/angles';
import { formatLength } from '../units/lengths';
import type { Display } from '../units/lengths';
import { drawTrade, fallArrow, fallLabel, readable } from './drawTrade';
import { insideRings, openestPoint } from './places';
import type { Layer, RoofDrawing, Shape } from './types';

/** What is drawn of one roof; the results of later steps may be missing. */
export interface DrawableRoof {
  readonly id: string;
  readonly page: string;
  readonly mmPerPoint: number;
  readonly roof: Roof | null;
  readonly layout: Layout | null;
  readonly seams: Seams | null;
  readonly fastening: Fastening | null;
}

export function drawRoof(
  drawable: DrawableRoof,
  weldPlan: WeldPlan | null,
  display: Display = 'metric',
): RoofDrawing {
  const { roof, layout, seams, fastening } = drawable;
  const layers: Layer[] = [
    { name: 'film', shapes: layout ? drawFilm(layout) : [] },
    { name: 'laps', shapes: layout && seams ? drawLaps(layout, seams) : [] },
    { name: 'welds', shapes: [...weldLines(weldPlan, drawable.id), ...(seams ? tJoints(seams) : [])] },
    { name: 'trade', shapes: roof ? drawTrade(roof, seams, display) : [] },
    { name: 'fasteners', shapes: fastening ? fastenerRows(fastening) : [] },
    { name: 'roof', shapes: roof ? roofShapes(roof) : [] },
    { name: 'fittings', shapes: roof ? roof.fittings.map(fittingMark) : [] },
    {
      name: 'labels',
      shapes: [
        ...(roof && layout ? sheetLabels(roof, layout) : []),
        ...(roof?.fall && roof.facets.length === 0
          ? [fallLabel(`${roof.id}.fall`, openestPoint(roof), roof.fall, display)]
          : []),
      ],
    },
    { name: 'dimensions', shapes: roof ? edgeLengths(roof, display) : [] },
  ];
  return {
    roof: drawable.id,
    page: drawable.page,
    mmPerPoint: drawable.mmPerPoint,
    clip: roof ? [roof.outline, ...roof.openings.map((opening) => opening.ring)] : [],
    layers,
  };
}

/** Sheets of the rows along edges have a tone of their own. */
function drawFilm({ sheets, bands }: Layout): Shape[] {
  const rows = new Set(bands.filter(({ kind }) => kind !== 'field').map(({ id }) => id));
  return sheets.map((sheet) => ({
    kind: 'area',
    rings: [sheet.corners],
    style: 'film',
    id: sheet.id,
    ...(rows.has(sheet.band) ? { detail: 'edge-row' } : {}),
  }));
}

/** The edge that is seen at a lap is the upper sheet's: half the overlap beyond the centre line. */
function drawLaps(layout: Layout, seams: Seams): Shape[] {
  const sheets = new Map(layout.sheets.map((sheet) => [sheet.id, sheet]));
  return [...seams.sideLaps, ...seams.endLaps].map((lap) => {
    const over = sheets.get(lap.over);
    const shift = over ? towardsUnder(lap, over) : ([0, 0] as const);
    return {
      kind: 'line',
      from: moved(lap.from, shift),
      to: moved(lap.to, shift),
      style: 'sheet-edge',
      id: lap.id,
      detail: lap.kind,
    };
  });
}

function towardsUnder(lap: SideLap | EndLap, over: Sheet): RoofPoint {
  const along: RoofPoint = [lap.to[0] - lap.from[0], lap.to[1] - lap.from[1]];
  const length = Math.hypot(along[0], along[1]);
  if (length === 0) return [0, 0];
  const left: RoofPoint = [-along[1] / length, along[0] / length];
  const middle = middleOf(over.corners);
  const side = (middle[0] - lap.from[0]) * left[0] + (middle[1] - lap.from[1]) * left[1];
  const by = side > 0 ? -lap.overlap / 2 : lap.overlap / 2;
  return [left[0] * by, left[1] * by];
}

/** Welds with a length on plan are lines; those of corners, boots and target sheets are marks where they are made. */
function weldLines(plan: WeldPlan | null, roof: string): Shape[] {
  const shapes: Shape[] = [];
  for (const run of plan?.runs ?? []) {
    if (run.roof !== roof || run.kind === 't-joint') continue;
    const style = run.method === 'machine' ? 'weld-machine' : 'weld-hand';
    const detail = run.kind;
    if (run.kind === 'corner' || run.kind === 'boot' || run.kind === 'target')
      shapes.push({ kind: 'mark', at: run.from, size: 0, style, id: run.seam, detail });
    else shapes.push({ kind: 'line', from: run.from, to: run.to, style, id: run.seam, detail });
  }
  return shapes;
}

function tJoints(seams: Seams): Shape[] {
  return seams.tJoints.map((joint) => ({
    kind: 'mark',
    at: joint.at,
    size: 0,
    style: 't-joint',
    id: joint.id,
  }));
}

/** Plates of 50 mm are drawn to size. */
function fastenerRows(fastening: Fastening): Shape[] {
  return fastening.rows
    .filter((row) => row.count > 0)
    .map(({ id, from, to, first, step, count }) => {
      return { kind: 'row', from, to, first, step, count, size: 50, style: 'fastener', id };
    });
}

function roofShapes(roof: Roof): Shape[] {
  const openings: Shape[] = roof.openings.map((opening) => ({
    kind: 'area',
    rings: [opening.ring],
    style: 'opening',
    id: opening.id,
    detail: opening.kind,
  }));
  const edges: Shape[] = roof.edges.map((edge) => ({
    kind: 'line',
    from: edge.from,
    to: edge.to,
    style: 'roof-edge',
    id: edge.id,
    detail: edge.kind,
  }));
  const arrows =
    roof.fall && roof.facets.length === 0
      ? [fallArrow(`${roof.id}.fall`, openestPoint(roof), roof.fall.downhill)]
      : [];
  return [...openings, ...edges, ...arrows];
}

function fittingMark(fitting: Roof['fittings'][number]): Shape {
  return {
    kind: 'mark',
    at: fitting.at,
    size: fitting.size,
    style: 'fitting',
    id: fitting.id,
    detail: fitting.kind,
  };
}

/** Tried in turn along the sheet, so that the name stands on membrane and not in a skylight. */
const LABEL_PLACES = [0.5, 0.25, 0.75, 0.125, 0.875];

function sheetLabels(roof: Roof, layout: Layout): Shape[] {
  const rings = [roof.outline, ...roof.openings.map((opening) => opening.ring)];
  const frames = new Map(layout.bands.map(({ id, frame }) => [id, frame]));
  return layout.sheets.map((sheet) => {
    const angle = readable((frames.get(sheet.band) ?? layout.frame).direction);
    const places = LABEL_PLACES.map((share) => onSheet(sheet, share));
    const at = places.find((place) => insideRings(place, rings)) ?? onSheet(sheet, 0.5);
    return { kind: 'text', at, text: sheet.id, angle, room: sheet.length, style: 'label', id: sheet.id };
  });
}

/** The point in the middle of the sheet's width, `share` of the way along it. */
function onSheet(sheet: Sheet, share: number): RoofPoint {
  const [a, b, c, d] = sheet.corners;
  if (!a || !b || !c || !d) return middleOf(sheet.corners);
  const start: RoofPoint = [(a[0] + d[0]) / 2, (a[1] + d[1]) / 2];
  const end: RoofPoint = [(b[0] + c[0]) / 2, (b[1] + c[1]) / 2];
  return [start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share];
}

/** The sides of a small opening would be written over each other. */
const SHORTEST_DIMENSIONED = { outline: 300, opening: 5000 };
const OUT_OF_THE_WAY = 500;

function edgeLengths(roof: Roof, display: Display): Shape[] {
  return roof.edges
    .filter((edge) => edge.length >= SHORTEST_DIMENSIONED[edge.ring === 0 ? 'outline' : 'opening'])
    .map((edge) => edgeLength(edge, display));
}

/** Beside the edge's middle, on its right: rings run with the membrane on their left. */
function edgeLength(edge: Edge, display: Display): Shape {
  const along: RoofPoint = [edge.to[0] - edge.from[0], edge.to[1] - edge.from[1]];
  const away = OUT_OF_THE_WAY / edge.length;
  return {
    kind: 'text',
    at: [
      (edge.from[0] + edge.to[0]) / 2 + along[1] * away,
      (edge.from[1] + edge.to[1]) / 2 - along[0] * away,
    ],
    text: formatLength(edge.length, display),
    angle: readable(toDegrees(Math.atan2(along[1], along[0]))),
    room: edge.length,
    style: 'dimension',
    id: edge.id,
  };
}

function moved(point: RoofPoint, by: RoofPoint): RoofPoint {
  return [point[0] + by[0], point[1] + by[1]];
}
