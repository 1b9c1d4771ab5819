// The verifier's own sweep: what of a polygon lies under no sheet, and where four sheets lie on each other. It
// slices at every level where anything begins or ends and looks at each slice's trapezoids one by one, which is
// slower than the layout's way and shares nothing with it.
export type Flat = readonly [number, number];

export interface Rect {
  readonly id: string;
  readonly course: number;
  readonly u0: number;
  readonly u1: number;
  readonly v0: number;
  readonly v1: number;
}

/** The first uncovered place of a polygon with holes (even-odd), or null; `slack` is overlooked. */
export function firstUncovered(
  rings: readonly (readonly Flat[])[],
  rects: readonly Rect[],
  slack: number,
): Flat | null {
  const sides = rings.flatMap((ring) =>
    ring.map((a, i) => [a, ring[(i + 1) % ring.length] as Flat] as const),
  );
  const low = Math.min(...rings.map((ring) => Math.min(...ring.map((p) => p[1]))));
  const high = Math.max(...rings.map((ring) => Math.max(...ring.map((p) => p[1]))));
  const levels = ascending([
    ...rings.flatMap((ring) => ring.map((p) => p[1])),
    ...rects.flatMap((r) => [r.v0, r.v1]).filter((v) => v > low && v < high),
  ]);
  const upright = sides
    .map(([a, b]) => (a[1] <= b[1] ? { a, b } : { a: b, b: a }))
    .filter(({ a, b }) => b[1] > a[1])
    .sort((p, q) => p.a[1] - q.a[1]);
  let next = 0;
  let active: typeof upright = [];
  const underAt = sheetsUnder(rects, slack);
  for (let i = 0; i + 1 < levels.length; i++) {
    const [v0, v1] = [levels[i] as number, levels[i + 1] as number];
    if (v1 - v0 <= slack) continue;
    const middle = (v0 + v1) / 2;
    for (; next < upright.length && (upright[next] as { a: Flat }).a[1] < middle; next++)
      active.push(upright[next] as (typeof upright)[number]);
    active = active.filter(({ b }) => b[1] > middle);
    const uAt = ({ a, b }: { a: Flat; b: Flat }, v: number) =>
      a[0] + ((v - a[1]) / (b[1] - a[1])) * (b[0] - a[0]);
    const crossing = active.map((side) => ({ side, u: uAt(side, middle) })).sort((p, q) => p.u - q.u);
    const under = underAt(v0, v1);
    for (let k = 0; k + 1 < crossing.length; k += 2) {
      const [left, right] = [
        crossing[k] as { side: { a: Flat; b: Flat } },
        crossing[k + 1] as { side: { a: Flat; b: Flat } },
      ];
      // A side at a slight angle runs out of the slice in a wedge thinner than the slack: that is overlooked too.
      const [low, high] = v1 - v0 > 2 * slack ? [v0 + slack, v1 - slack] : [middle, middle];
      const from = Math.min(uAt(left.side, low), uAt(left.side, high));
      const to = Math.max(uAt(right.side, low), uAt(right.side, high));
      if (to - from <= slack) continue;
      const sheet = under.find(([a, b]) => a <= from + slack && b >= from);
      if (!sheet) return [from, middle];
      if (sheet[1] < to - slack) return [sheet[1], middle];
    }
  }
  return null;
}

/** What lies under the sheets that reach all through a slice; asked for slice by slice upwards. */
function sheetsUnder(rects: readonly Rect[], slack: number): (v0: number, v1: number) => Stretches {
  const sorted = [...rects].sort((p, q) => p.v0 - q.v0);
  let next = 0;
  let active: Rect[] = [];
  let under: Stretches = [];
  return (v0, v1) => {
    const before = next;
    for (; next < sorted.length && (sorted[next] as Rect).v0 <= v0 + slack; next++)
      active.push(sorted[next] as Rect);
    if (next === before && active.every((r) => r.v1 >= v1 - slack)) return under;
    active = active.filter((r) => r.v1 >= v1 - slack);
    under = union(active.map((r) => [r.u0, r.u1] as const));
    return under;
  };
}

/** A place under four or more sheets at once, or null; overlaps thinner than `slack` are overlooked. */
export function firstFourfold(
  rects: readonly Rect[],
  slack: number,
): { readonly at: Flat; readonly ids: readonly string[] } | null {
  const levels = ascending(rects.flatMap((r) => [r.v0, r.v1]));
  const sorted = [...rects].sort((p, q) => p.v0 - q.v0);
  let next = 0;
  let active: Rect[] = [];
  for (let i = 0; i + 1 < levels.length; i++) {
    const [v0, v1] = [levels[i] as number, levels[i + 1] as number];
    const middle = (v0 + v1) / 2;
    for (; next < sorted.length && (sorted[next] as Rect).v0 < middle; next++)
      active.push(sorted[next] as Rect);
    active = active.filter((r) => r.v1 > middle);
    if (v1 - v0 <= slack) continue;
    const ends = active.flatMap((r) => [
      { u: r.u0 + slack, by: 1, id: r.id },
      { u: r.u1 - slack, by: -1, id: r.id },
    ]);
    ends.sort((p, q) => p.u - q.u || p.by - q.by);
    const here = new Set<string>();
    for (const end of ends) {
      if (end.by > 0) here.add(end.id);
      else here.delete(end.id);
      if (here.size >= 4) return { at: [end.u, middle], ids: [...here] };
    }
  }
  return null;
}

type Stretches = readonly (readonly [number, number])[];

/** What of a line v lies in a polygon with holes (even-odd). */
export function stretches(rings: readonly (readonly Flat[])[], v: number): [number, number][] {
  const crossings: number[] = [];
  for (const ring of rings) {
    let a = ring[0] as Flat;
    for (let i = 1; i <= ring.length; i++) {
      const b = ring[i === ring.length ? 0 : i] as Flat;
      if (a[1] <= v !== b[1] <= v) crossings.push(a[0] + ((v - a[1]) / (b[1] - a[1])) * (b[0] - a[0]));
      a = b;
    }
  }
  crossings.sort((p, q) => p - q);
  const found: [number, number][] = [];
  for (let k = 0; k + 1 < crossings.length; k += 2)
    found.push([crossings[k] as number, crossings[k + 1] as number]);
  return found;
}

export const lengthOf = (list: Stretches) => list.reduce((sum, [a, b]) => sum + b - a, 0);

/** Total length of a polygon with holes on the line v. */
export const chordLength = (rings: readonly (readonly Flat[])[], v: number) => lengthOf(stretches(rings, v));

/** What two lists of stretches share; neither overlaps itself. */
export function meet(a: Stretches, b: Stretches): [number, number][] {
  return a.flatMap(([p, q]) =>
    b
      .filter(([r, s]) => Math.min(q, s) > Math.max(p, r))
      .map(([r, s]): [number, number] => [Math.max(p, r), Math.min(q, s)]),
  );
}

function ascending(values: readonly number[]): number[] {
  return [...new Set(values)].sort((p, q) => p - q);
}

/** Sheets that butt end to end may stand apart by the noise of turning the roof, mm. */
const BUTT_MM = 0.01;

export function union(spans: Stretches): [number, number][] {
  const merged: [number, number][] = [];
  for (const [a, b] of [...spans].sort((p, q) => p[0] - q[0])) {
    const last = merged[merged.length - 1];
    if (last && a <= last[1] + BUTT_MM) last[1] = Math.max(last[1], b);
    else merged.push([a, b]);
  }
  return merged;
}
