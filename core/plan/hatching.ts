// Marks hatching: five or more parallel strokes of one pen, evenly and closely spaced, side by side; and lines that
// were exported as single dashes: six or more in line, with even gaps.
import { STROKE } from './strokes';
import type { Linework } from './types';
import { SEGMENT_MARK } from './types';

export function markHatching(linework: Linework, kinds: Uint8Array, symbolSize: number): void {
  for (const group of parallelGroups(linework, kinds)) {
    if (group.length >= LEAST_LINES) markGroup(group, kinds, symbolSize);
    if (group.length >= LEAST_DASHES) markDashes(group, kinds, symbolSize);
  }
}

const LEAST_LINES = 5;
const LEAST_DASHES = 6;
/** In symbol sizes. */
const WIDEST_SPACING = 1.8;
const LONGEST_DASH = 8;
const WIDEST_GAP = 2;
const EVEN = 0.1;
const ANGLE_STEPS_PER_DEGREE = 2;

interface Stroke {
  readonly k: number;
  readonly offset: number;
  readonly low: number;
  readonly high: number;
}

/** Strokes of one direction, pen and layer, by their offset from the origin. */
function parallelGroups({ segments, widths, layer, marks }: Linework, kinds: Uint8Array): Stroke[][] {
  const groups = new Map<number, Stroke[]>();
  const pens = new Map<number, number>();
  for (let k = 0; k < widths.length; k++) {
    if (kinds[k] !== 0 || ((marks[k] ?? 0) & SEGMENT_MARK.curve) !== 0) continue;
    const x = segments[4 * k] ?? 0;
    const y = segments[4 * k + 1] ?? 0;
    const dx = (segments[4 * k + 2] ?? 0) - x;
    const dy = (segments[4 * k + 3] ?? 0) - y;
    const degrees = ((Math.atan2(dy, dx) * 180) / Math.PI + 360) % 180;
    const step = Math.round(degrees * ANGLE_STEPS_PER_DEGREE) % (180 * ANGLE_STEPS_PER_DEGREE);
    const pen = Math.round((widths[k] ?? 0) * 100) * 65_536 + (layer[k] ?? 0);
    const penNumber = pens.get(pen) ?? pens.set(pen, pens.size).size - 1;
    const angle = (step / ANGLE_STEPS_PER_DEGREE / 180) * Math.PI;
    const [ux, uy] = [Math.cos(angle), Math.sin(angle)];
    const a = x * ux + y * uy;
    const b = (x + dx) * ux + (y + dy) * uy;
    const offset = (y + dy / 2) * ux - (x + dx / 2) * uy;
    const key = penNumber * 1000 + step;
    const group = groups.get(key) ?? [];
    if (group.length === 0) groups.set(key, group);
    group.push({ k, offset, low: Math.min(a, b), high: Math.max(a, b) });
  }
  return [...groups.values()].map((group) => group.sort((a, b) => a.offset - b.offset || a.low - b.low));
}

function markGroup(group: readonly Stroke[], kinds: Uint8Array, symbolSize: number): void {
  const widest = WIDEST_SPACING * symbolSize;
  const next = new Int32Array(group.length).fill(-1);
  const spacing = new Float64Array(group.length);
  const run = new Int32Array(group.length).fill(1);
  for (let i = group.length - 1; i >= 0; i--) {
    const stroke = group[i] as Stroke;
    for (let j = i + 1; j < group.length && j < i + MOST_TRIED; j++) {
      const other = group[j] as Stroke;
      const apart = other.offset - stroke.offset;
      if (apart > widest) break;
      if (apart < 0.02 * symbolSize || !besides(stroke, other)) continue;
      next[i] = j;
      spacing[i] = apart;
      const even = (next[j] ?? -1) >= 0 && Math.abs((spacing[j] ?? 0) / apart - 1) < EVEN;
      run[i] = even ? (run[j] ?? 1) + 1 : 2;
      break;
    }
  }
  for (let i = 0; i < group.length; i++) {
    if ((run[i] ?? 1) < LEAST_LINES) continue;
    for (let j = i, left = run[i] ?? 1; left > 0 && j >= 0; j = next[j] ?? -1, left--) {
      const k = (group[j] as Stroke).k;
      kinds[k] = (kinds[k] ?? 0) | STROKE.hatch;
    }
  }
}

const MOST_TRIED = 300;

function besides(a: Stroke, b: Stroke): boolean {
  const shared = Math.min(a.high, b.high) - Math.max(a.low, b.low);
  return shared > 0.3 * Math.min(a.high - a.low, b.high - b.low);
}

function markDashes(group: readonly Stroke[], kinds: Uint8Array, symbolSize: number): void {
  for (let from = 0; from < group.length;) {
    let to = from + 1;
    while (to < group.length && offsetBetween(group, to - 1, to) < 0.01 * symbolSize) to++;
    if (to - from >= LEAST_DASHES) markRuns(group.slice(from, to), kinds, symbolSize);
    from = to;
  }
}

function offsetBetween(group: readonly Stroke[], a: number, b: number): number {
  return (group[b] as Stroke).offset - (group[a] as Stroke).offset;
}

function markRuns(line: Stroke[], kinds: Uint8Array, symbolSize: number): void {
  line.sort((a, b) => a.low - b.low);
  let run: Stroke[] = [];
  const settle = (): void => {
    const gaps = run.slice(1).map((stroke, i) => stroke.low - (run[i] as Stroke).high);
    const typical = [...gaps].sort((a, b) => a - b)[Math.floor(gaps.length / 2)] ?? 0;
    const steady = gaps.filter((gap) => Math.abs(gap / typical - 1) < 0.2).length;
    if (run.length >= LEAST_DASHES && steady >= 0.8 * gaps.length)
      for (const { k } of run) kinds[k] = (kinds[k] ?? 0) | STROKE.dashed;
    run = [];
  };
  for (const stroke of line) {
    const last = run.at(-1);
    const gap = last ? stroke.low - last.high : 0;
    const apart = last !== undefined && !(gap > 0.02 * symbolSize && gap < WIDEST_GAP * symbolSize);
    if (apart || stroke.high - stroke.low > LONGEST_DASH * symbolSize) settle();
    if (stroke.high - stroke.low <= LONGEST_DASH * symbolSize) run.push(stroke);
  }
  settle();
}
