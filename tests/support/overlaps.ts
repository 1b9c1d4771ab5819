// Areas of sheets, of their overlaps by two and three, and of what they cover together, each counted its own way:
// overlaps pair by pair, the cover by slicing.
import type { Sheet } from '../../core/sheets/types';

type Box = readonly [u0: number, u1: number, v0: number, v1: number];

export function coveredArea(sheets: readonly Sheet[]): {
  singles: number;
  pairs: number;
  triples: number;
  covered: number;
} {
  const boxes = sheets.map((s): Box => [s.along[0], s.along[1], s.across[0], s.across[1]]);
  let [singles, pairs, triples] = [0, 0, 0];
  const order = boxes.sort((a, b) => a[2] - b[2] || a[0] - b[0]);
  order.forEach((a, i) => {
    singles += size(a);
    for (let j = i + 1; j < order.length; j++) {
      const b = order[j] as Box;
      if (b[2] >= a[3]) break;
      const both = common(a, b);
      if (!both) continue;
      pairs += size(both);
      for (let k = j + 1; k < order.length; k++) {
        const c = order[k] as Box;
        if (c[2] >= both[3]) break;
        const all = common(both, c);
        if (all) triples += size(all);
      }
    }
  });
  return { singles, pairs, triples, covered: sliced(order) };
}

const size = ([u0, u1, v0, v1]: Box) => (u1 - u0) * (v1 - v0);

function common(a: Box, b: Box): Box | null {
  const box: Box = [Math.max(a[0], b[0]), Math.min(a[1], b[1]), Math.max(a[2], b[2]), Math.min(a[3], b[3])];
  return box[1] > box[0] && box[3] > box[2] ? box : null;
}

function sliced(boxes: readonly Box[]): number {
  const levels = [...new Set(boxes.flatMap((b) => [b[2], b[3]]))].sort((a, b) => a - b);
  let area = 0;
  for (let i = 0; i + 1 < levels.length; i++) {
    const [low, high] = [levels[i] as number, levels[i + 1] as number];
    const spans = boxes.filter((b) => b[2] <= low && b[3] >= high).sort((a, b) => a[0] - b[0]);
    let end = -Infinity;
    for (const [u0, u1] of spans) {
      if (u1 <= end) continue;
      area += (u1 - Math.max(u0, end)) * (high - low);
      end = u1;
    }
  }
  return area;
}
