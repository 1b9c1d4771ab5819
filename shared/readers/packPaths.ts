// Packs paths as they come: growing arrays in place of lists, because a page may have hundreds of thousands.
import type { PackedPaths } from '../../core/plan/types';

/** An affine map as PDF writes it: x' = a·x + c·y + e, y' = b·x + d·y + f. */
export type Matrix = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

export interface PathStyle {
  readonly paint: number;
  readonly width: number;
  readonly strokeInk: number;
  readonly fillInk: number;
  readonly strokeAlpha: number;
  readonly fillAlpha: number;
  readonly pen: number;
  readonly dash: number;
  readonly layer: number;
  readonly clip: number;
}

export class PathWriter {
  count = 0;
  private verbCount = 0;
  private coordCount = 0;
  private verbs = new Uint8Array(4096);
  private coords = new Float64Array(8192);
  private styles = makeStyles(1024);

  /** Takes the library's own path data. Verbs that lead to no number are left out. */
  add(data: Float32Array, [a, b, c, d, e, f]: Matrix, scale: number, style: PathStyle): void {
    this.makeRoom(data.length);
    const { styles, count, verbs, coords } = this;
    styles.firstVerb[count] = this.verbCount;
    styles.firstCoord[count] = this.coordCount;
    let largest = 0;
    let px = 0;
    let py = 0;
    for (let k = 0; k < data.length;) {
      const verb = data[k++] ?? 0;
      const points = POINTS_OF_VERB[verb] ?? 0;
      const start = this.coordCount;
      let sound = true;
      let x = px;
      let y = py;
      for (let n = 0; n < points; n++) {
        const u = data[k++] ?? NaN;
        const v = data[k++] ?? NaN;
        largest = Math.max(largest, Math.abs(u), Math.abs(v));
        x = a * u + c * v + e;
        y = b * u + d * v + f;
        sound &&= Number.isFinite(x) && Number.isFinite(y);
        coords[this.coordCount++] = x;
        coords[this.coordCount++] = y;
      }
      if (!sound) {
        this.coordCount = start;
        continue;
      }
      if (verb === QUADRATIC) this.raise(start, px, py);
      verbs[this.verbCount++] = verb === QUADRATIC ? 2 : verb > QUADRATIC ? 3 : verb;
      px = x;
      py = y;
    }
    styles.paint[count] = style.paint;
    styles.dashed[count] = style.dash > 0 ? 1 : 0;
    styles.pen[count] = style.pen;
    styles.strokeAlpha[count] = Math.round(style.strokeAlpha * 255);
    styles.fillAlpha[count] = Math.round(style.fillAlpha * 255);
    styles.ink[count] = style.strokeInk;
    styles.fillInk[count] = style.fillInk;
    styles.layer[count] = style.layer;
    styles.dash[count] = style.dash;
    styles.clip[count] = style.clip;
    styles.width[count] = style.width;
    styles.step[count] = floatStep(largest) * scale;
    this.count++;
  }

  finish(dashes: readonly (readonly number[])[], clips: readonly number[]): PackedPaths {
    const { count, styles, verbCount, coordCount } = this;
    styles.firstVerb[count] = verbCount;
    styles.firstCoord[count] = coordCount;
    return {
      count,
      verbs: this.verbs.slice(0, verbCount),
      coords: this.coords.slice(0, coordCount),
      firstVerb: styles.firstVerb.slice(0, count + 1),
      firstCoord: styles.firstCoord.slice(0, count + 1),
      paint: styles.paint.slice(0, count),
      width: styles.width.slice(0, count),
      ink: styles.ink.slice(0, count),
      dashed: styles.dashed.slice(0, count),
      layer: styles.layer.slice(0, count),
      step: styles.step.slice(0, count),
      look: {
        fillInk: styles.fillInk.slice(0, count),
        strokeAlpha: styles.strokeAlpha.slice(0, count),
        fillAlpha: styles.fillAlpha.slice(0, count),
        pen: styles.pen.slice(0, count),
        dash: styles.dash.slice(0, count),
        dashes,
      },
      clips: { of: styles.clip.slice(0, count), boxes: Float64Array.from(clips) },
    };
  }

  /** For one more path of so many numbers; a quadratic curve takes half as much again. */
  private makeRoom(numbers: number): void {
    if (this.verbCount + numbers > this.verbs.length)
      this.verbs = moved(this.verbs, new Uint8Array(2 * this.verbCount + 2 * numbers));
    if (this.coordCount + 2 * numbers > this.coords.length)
      this.coords = moved(this.coords, new Float64Array(2 * this.coordCount + 4 * numbers));
    const { styles, count } = this;
    if (count + 2 <= styles.firstVerb.length) return;
    const larger = makeStyles(2 * count);
    for (const key of Object.keys(styles) as (keyof Styles)[]) larger[key].set(styles[key]);
    this.styles = larger;
  }

  /** A quadratic curve is raised to the cubic that is the same curve. */
  private raise(start: number, px: number, py: number): void {
    const { coords } = this;
    const [cx = 0, cy = 0, x = 0, y = 0] = coords.subarray(start, start + 4);
    coords[start] = px + ((cx - px) * 2) / 3;
    coords[start + 1] = py + ((cy - py) * 2) / 3;
    coords[start + 2] = x + ((cx - x) * 2) / 3;
    coords[start + 3] = y + ((cy - y) * 2) / 3;
    coords[start + 4] = x;
    coords[start + 5] = y;
    this.coordCount = start + 6;
  }
}

/** Points that follow each of the library's own path verbs: move, line, cubic, quadratic, close. */
const POINTS_OF_VERB = [1, 1, 3, 2, 0];
const QUADRATIC = 3;

/** Distance from a number to the next that 32 bits can hold: the library passes coordinates as such. */
function floatStep(value: number): number {
  return value === 0 ? 0 : 2 ** (Math.floor(Math.log2(value)) - 23);
}

function moved<T extends Uint8Array | Float64Array>(from: T, to: T): T {
  to.set(from);
  return to;
}

type Styles = ReturnType<typeof makeStyles>;

function makeStyles(room: number) {
  return {
    firstVerb: new Uint32Array(room),
    firstCoord: new Uint32Array(room),
    paint: new Uint8Array(room),
    dashed: new Uint8Array(room),
    pen: new Uint8Array(room),
    strokeAlpha: new Uint8Array(room),
    fillAlpha: new Uint8Array(room),
    ink: new Uint32Array(room),
    fillInk: new Uint32Array(room),
    layer: new Uint16Array(room),
    dash: new Uint16Array(room),
    clip: new Uint32Array(room),
    width: new Float32Array(room),
    step: new Float32Array(room),
  };
}
