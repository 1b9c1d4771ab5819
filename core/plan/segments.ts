// Packs a page's segments as they come: growing arrays in place of lists, each segment cut to its path's clip.
import type { Linework } from './types';

/** left, bottom, right, top on the displayed page. */
export type Clip = readonly [number, number, number, number];

/** A segment without length is left out, and so is what a clip hides. */
export class SegmentWriter {
  count = 0;
  private segments: Float64Array;
  private widths: Float32Array;
  private paths: Uint32Array;
  private layers: Uint16Array;
  private marks: Uint8Array;
  private path = 0;
  private width = 0;
  private layer = 0;
  private clip: Clip | null = null;

  /** `room`: how many segments are to be expected; more are taken too. */
  constructor(room: number) {
    const most = Math.max(16, room);
    this.segments = new Float64Array(4 * most);
    this.widths = new Float32Array(most);
    this.paths = new Uint32Array(most);
    this.layers = new Uint16Array(most);
    this.marks = new Uint8Array(most);
  }

  startPath(path: number, width: number, layer: number, clip: Clip | null): void {
    this.path = path;
    this.width = width;
    this.layer = layer;
    this.clip = clip;
  }

  line(ax: number, ay: number, bx: number, by: number, mark: number): void {
    if (ax === bx && ay === by) return;
    const { clip } = this;
    if (!clip || (holds(clip, ax, ay) && holds(clip, bx, by))) return this.put(ax, ay, bx, by, mark);
    const part = shareWithin(clip, ax, ay, bx - ax, by - ay);
    if (!part) return;
    const [from, to] = part;
    // Ends that were not cut keep their numbers to the last bit.
    const [px, py] = from === 0 ? [ax, ay] : [ax + from * (bx - ax), ay + from * (by - ay)];
    const [qx, qy] = to === 1 ? [bx, by] : [ax + to * (bx - ax), ay + to * (by - ay)];
    this.put(px, py, qx, qy, mark);
  }

  finish(): Pick<Linework, 'segments' | 'widths' | 'path' | 'layer' | 'marks'> {
    return {
      segments: this.segments.slice(0, this.count * 4),
      widths: this.widths.slice(0, this.count),
      path: this.paths.slice(0, this.count),
      layer: this.layers.slice(0, this.count),
      marks: this.marks.slice(0, this.count),
    };
  }

  private put(ax: number, ay: number, bx: number, by: number, mark: number): void {
    const k = this.count;
    if (k === this.widths.length) this.grow();
    this.segments[4 * k] = ax;
    this.segments[4 * k + 1] = ay;
    this.segments[4 * k + 2] = bx;
    this.segments[4 * k + 3] = by;
    this.widths[k] = this.width;
    this.paths[k] = this.path;
    this.layers[k] = this.layer;
    this.marks[k] = mark;
    this.count++;
  }

  private grow(): void {
    const room = this.count * 2;
    const segments = new Float64Array(room * 4);
    const widths = new Float32Array(room);
    const paths = new Uint32Array(room);
    const layers = new Uint16Array(room);
    const marks = new Uint8Array(room);
    segments.set(this.segments);
    widths.set(this.widths);
    paths.set(this.paths);
    layers.set(this.layers);
    marks.set(this.marks);
    this.segments = segments;
    this.widths = widths;
    this.paths = paths;
    this.layers = layers;
    this.marks = marks;
  }
}

function holds([left, bottom, right, top]: Clip, x: number, y: number): boolean {
  return x >= left && x <= right && y >= bottom && y <= top;
}

/** The share of a segment that lies within, from and to (Liang and Barsky 1984); null where none does. */
function shareWithin(
  [left, bottom, right, top]: Clip,
  x: number,
  y: number,
  dx: number,
  dy: number,
): readonly [number, number] | null {
  let from = 0;
  let to = 1;
  for (const [along, room] of [
    [-dx, x - left],
    [dx, right - x],
    [-dy, y - bottom],
    [dy, top - y],
  ] as const) {
    if (along === 0) {
      if (room < 0) return null;
    } else if (along < 0) from = Math.max(from, room / along);
    else to = Math.min(to, room / along);
  }
  return from < to ? [from, to] : null;
}
