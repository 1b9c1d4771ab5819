// Prints a roof's drawing: gives each style its ink on paper. Black and white throughout, so that a copy of a copy
// still tells a machine weld from a hand weld.
import type { LayerName, RoofDrawing, Shape } from '../../core/drawing/types';
import type { RoofPoint } from '../../core/geometry/points';
import type { PackPage, Spot, Stroke } from './canvas';

export interface PaintOptions {
  readonly layers: readonly LayerName[];
  /** Points on paper per millimetre on the roof. */
  readonly scale: number;
  readonly toPaper: (point: RoofPoint) => Spot;
  /** How dark one layer of film is. */
  readonly film: number;
  /** Thin edges leave the welds along them to be seen. */
  readonly edges: 'by kind' | 'thin';
}

/** Cut to the membrane: what lies under a courtyard is not printed over it. */
const CLIPPED: readonly LayerName[] = ['film', 'laps', 'welds', 'fasteners'];

export function paintRoof(page: PackPage, drawing: RoofDrawing, options: PaintOptions): void {
  const clip = drawing.clip.map((ring) => ring.map(options.toPaper));
  for (const layer of drawing.layers) {
    if (!options.layers.includes(layer.name)) continue;
    const paint = () => {
      for (const shape of layer.shapes) paintShape(page, shape, options);
    };
    if (CLIPPED.includes(layer.name) && clip.length > 0) page.clipped(clip, paint);
    else paint();
  }
}

const SHEET_EDGE: Stroke = { width: 0.35, ink: 0.15 };
const MACHINE: Stroke = { width: 1.2 };
const HAND: Stroke = { width: 1.2, dash: [3.2, 2.4] };
const SLIT: Stroke = { width: 1.4, dash: [1.2, 1.2] };
const FLUTE: Stroke = { width: 0.5, ink: 0.3 };
const FACET: Stroke = { width: 0.35, ink: 0.35, dash: [1.5, 2.5] };
/** Half of what one sheet more would darken it, so that it is not taken for a lap. */
const EDGE_ROW = 0.5;

function paintShape(page: PackPage, shape: Shape, options: PaintOptions): void {
  const { toPaper } = options;
  switch (shape.kind) {
    case 'area':
      paintArea(page, shape, options);
      return;
    case 'line':
      if (shape.style === 'roof-line')
        page.line(toPaper(shape.from), toPaper(shape.to), EDGES[shape.detail ?? ''] ?? SHEET_EDGE);
      else if (shape.style === 'roof-edge')
        paintEdge(
          page,
          toPaper(shape.from),
          toPaper(shape.to),
          options.edges === 'thin' ? 'thin' : shape.detail,
        );
      else if (shape.style === 'fall') paintFall(page, toPaper(shape.from), toPaper(shape.to));
      else page.line(toPaper(shape.from), toPaper(shape.to), lineOf(shape.style));
      return;
    case 'mark':
      paintMark(page, shape, options);
      return;
    case 'row':
      paintRow(page, shape, options);
      return;
    case 'text':
      paintText(page, shape, options);
  }
}

function lineOf(style: Shape['style']): Stroke {
  if (style === 'weld-machine') return MACHINE;
  if (style === 'slit') return SLIT;
  if (style === 'flutes') return FLUTE;
  return style === 'weld-hand' ? HAND : SHEET_EDGE;
}

function paintArea(page: PackPage, shape: Extract<Shape, { kind: 'area' }>, options: PaintOptions): void {
  const rings = shape.rings.map((ring) => ring.map(options.toPaper));
  if (shape.style === 'film') {
    page.area(rings, 0, options.film);
    if (shape.detail === 'edge-row') page.area(rings, 0, options.film * EDGE_ROW);
    return;
  }
  if (shape.style === 'facet' || shape.style === 'target') {
    if (shape.style === 'target') page.area(rings, 0, options.film);
    for (const ring of rings) page.path(ring, shape.style === 'facet' ? FACET : { width: 0.9 }, 'closed');
    return;
  }
  page.area(rings, 1, 0.75);
  const [ring] = rings;
  if (!ring) return;
  if (shape.detail === 'courtyard' || shape.detail === 'skylight') {
    const [a, b, c, d] = ring;
    if (a && b && c && d && ring.length === 4) {
      page.line(a, c, { width: 0.25, ink: 0.4 });
      page.line(b, d, { width: 0.25, ink: 0.4 });
    }
  }
  if (shape.detail === 'curb' || shape.detail === 'hatch') page.area(rings, 0, 0.12);
}

const EDGES: Readonly<Record<string, Stroke>> = {
  parapet: { width: 1.8 },
  wall: { width: 1.8 },
  curb: { width: 0.9 },
  eave: { width: 1 },
  gutter: { width: 1 },
  expansion: { width: 1, dash: [8, 2, 1.5, 2] },
  'tie-in': { width: 1, dash: [8, 2, 1.5, 2] },
  phase: { width: 1, dash: [8, 2, 1.5, 2] },
  valley: { width: 0.9, dash: [5, 2] },
  thin: { width: 0.3, ink: 0.4 },
};

/** The membrane lies on the left of every edge; a gutter's trough and a wall's face are drawn on the right. */
function paintEdge(page: PackPage, from: Spot, to: Spot, kind = 'eave'): void {
  page.line(from, to, EDGES[kind] ?? { width: 1 });
  if (kind !== 'gutter' && kind !== 'wall') return;
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (length === 0) return;
  const away = kind === 'gutter' ? 3.2 : 2.4;
  const out: Spot = [((to[1] - from[1]) / length) * away, (-(to[0] - from[0]) / length) * away];
  page.line([from[0] + out[0], from[1] + out[1]], [to[0] + out[0], to[1] + out[1]], {
    width: 0.5,
    ...(kind === 'gutter' ? { dash: [4, 2] } : {}),
  });
}

function paintFall(page: PackPage, from: Spot, to: Spot): void {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (length === 0) return;
  const along: Spot = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const neck: Spot = [to[0] - along[0] * 9, to[1] - along[1] * 9];
  page.line(from, neck, { width: 0.8 });
  page.area(
    [
      [
        to,
        [neck[0] - along[1] * 2.6, neck[1] + along[0] * 2.6],
        [neck[0] + along[1] * 2.6, neck[1] - along[0] * 2.6],
      ],
    ],
    0,
  );
}

function paintMark(page: PackPage, shape: Extract<Shape, { kind: 'mark' }>, options: PaintOptions): void {
  const [x, y] = options.toPaper(shape.at);
  if (shape.style === 't-joint') {
    page.circle([x, y], 1.7, { fill: 0 });
    return;
  }
  if (shape.style === 'weld-hand' || shape.style === 'weld-machine') {
    page.circle([x, y], 2.6, { stroke: { width: 0.8, dash: [1.2, 0.9] } });
    return;
  }
  const r = Math.max((shape.size * options.scale) / 2, 2.2);
  if (shape.style === 'clear') {
    page.circle([x, y], r, { stroke: { width: 0.4, dash: [1.5, 1.5] } });
    return;
  }
  const thin = { width: 0.6 };
  switch (shape.detail) {
    case 'drain':
      page.circle([x, y], r + 1, { stroke: thin, fill: 1 });
      page.line([x - r, y - r], [x + r, y + r], thin);
      page.line([x - r, y + r], [x + r, y - r], thin);
      return;
    case 'scupper':
      page.box([x - r, y - r * 0.6], [x + r, y + r * 0.6], { stroke: thin, fill: 1 });
      return;
    case 'post':
      page.box([x - r, y - r], [x + r, y + r], { fill: 0.15 });
      return;
    case 'anchor':
      page.path(
        [
          [x, y + r + 1],
          [x - r, y - r],
          [x + r, y - r],
        ],
        thin,
        'closed',
      );
      return;
    default:
      page.circle([x, y], r, { stroke: thin, fill: 1 });
      page.circle([x, y], 0.6, { fill: 0 });
  }
}

function paintRow(page: PackPage, shape: Extract<Shape, { kind: 'row' }>, options: PaintOptions): void {
  const [from, to] = [options.toPaper(shape.from), options.toPaper(shape.to)];
  const length = Math.hypot(shape.to[0] - shape.from[0], shape.to[1] - shape.from[1]);
  if (length === 0) return;
  const r = Math.max((shape.size * options.scale) / 2, 0.45);
  for (let k = 0; k < shape.count; k++) {
    const share = (shape.first + k * shape.step) / length;
    page.circle([from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share], r, {
      fill: 0.35,
    });
  }
}

const SMALLEST = 4.4;

/** Names stand on a pale ground, so that they are read over the plan's own lines. */
function paintText(page: PackPage, shape: Extract<Shape, { kind: 'text' }>, options: PaintOptions): void {
  const weight = shape.style === 'label' ? 'bold' : 'regular';
  const full = shape.style === 'label' ? 6.6 : 6.2;
  const wide = page.widthOf(shape.text, { size: full, weight });
  const room = shape.room === undefined ? Infinity : shape.room * options.scale - 2;
  // A sheet's name is printed however small the sheet; a dimension that does not fit is left to the list.
  if (wide > room && shape.style === 'dimension') return;
  const size = wide > room ? Math.max(SMALLEST, (full * room) / wide) : full;
  const at = options.toPaper(shape.at);
  const turn = (shape.angle * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const place = (u: number, v: number): Spot => [at[0] + u * cos - v * sin, at[1] + u * sin + v * cos];
  const style = { size, weight, align: 'middle' } as const;
  const half = page.widthOf(shape.text, style) / 2 + 1.5;
  const tall = size * 0.62;
  page.area([[place(-half, -tall), place(half, -tall), place(half, tall), place(-half, tall)]], 1, 0.7);
  page.text(place(0, -size * 0.35), shape.text, { ...style, angle: shape.angle });
}
