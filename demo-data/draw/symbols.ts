// The draughtsman's signs: dimensions, grid bubbles, arrows, fittings, scale bar, north point, revision cloud.
import { formatLength } from '../../core/units/lengths';
import { formatNumber, THIN_SPACE } from '../../core/units/numbers';
import type { FittingKind } from '../../core/roof/types';
import { leftOf, PENS, plus, times, towards } from './ink';
import type { InkLayer, Paper, Pen, Place } from './ink';

/** One dimension between two places on paper, with slanted ticks; its figure is read from below or the right. */
export function drawDimension(paper: Paper, a: Place, b: Place, figure: string): void {
  const along = towards(a, b);
  paper.line('DIMENSIONS', plus(a, times(along, -1.6)), plus(b, times(along, 1.6)), PENS.dimension);
  for (const end of [a, b]) {
    const tick = times([along[0] - along[1], along[1] + along[0]], 1.1);
    paper.line('DIMENSIONS', plus(end, times(tick, -1)), plus(end, tick), { width: 0.4 });
  }
  const upright = Math.abs(along[1]) > Math.abs(along[0]);
  const middle = times(plus(a, b), 0.5);
  const narrow = Math.hypot(b[0] - a[0], b[1] - a[1]) < figure.length * 1.7;
  const lift = narrow ? 4.2 : 1;
  const at: Place = upright ? [middle[0] - lift, middle[1]] : [middle[0], middle[1] + lift];
  paper.text('DIMENSIONS', at, figure, { size: 2.8, align: 'middle', angle: upright ? 90 : 0 });
}

/** Millimetres without a unit on metric sheets, feet and inches on imperial ones. */
export function dimensionFigure(mm: number, display: 'metric' | 'imperial'): string {
  return display === 'imperial'
    ? formatLength(mm, display).replaceAll(THIN_SPACE, ',')
    : formatNumber(mm).replaceAll(THIN_SPACE, ' ');
}

export function drawGridBubble(paper: Paper, at: Place, label: string): void {
  paper.circle('GRID', at, 5, { width: 0.25, grey: 0.2 }, 1);
  paper.text('GRID', [at[0], at[1] - 1.35], label, {
    size: 3.8,
    align: 'middle',
    weight: 'bold',
    grey: 0.15,
  });
}

/** A line with a filled head at its end. */
export function drawArrow(paper: Paper, layer: InkLayer, from: Place, to: Place, pen: Pen, head = 3.4): void {
  const along = towards(from, to);
  const neck = plus(to, times(along, -head));
  const half = times(leftOf(along), head * 0.26);
  paper.line(layer, from, neck, pen);
  paper.ring(layer, [to, plus(neck, half), plus(neck, times(half, -1))], null, pen.grey ?? 0);
}

/** `size` is in mm on paper, drawn no smaller than can be read. */
export function drawFitting(paper: Paper, kind: FittingKind, at: Place, size: number, outward: Place): void {
  const pen = PENS.fitting;
  const radius = Math.max(size / 2, kind === 'drain' ? 2 : 1);
  switch (kind) {
    case 'drain': {
      paper.circle('FITTINGS', at, radius, pen, 1);
      paper.circle('FITTINGS', at, radius * 0.45, PENS.dimension, 0.35);
      const slant = times([1, 1], radius * Math.SQRT1_2);
      paper.line('FITTINGS', plus(at, times(slant, -1)), plus(at, slant), PENS.dimension);
      paper.line(
        'FITTINGS',
        plus(at, [-slant[0], slant[1]]),
        plus(at, [slant[0], -slant[1]]),
        PENS.dimension,
      );
      return;
    }
    case 'pipe':
      paper.circle('FITTINGS', at, radius, pen, 1);
      paper.line('FITTINGS', plus(at, [-radius - 0.8, 0]), plus(at, [radius + 0.8, 0]), PENS.hair);
      paper.line('FITTINGS', plus(at, [0, -radius - 0.8]), plus(at, [0, radius + 0.8]), PENS.hair);
      return;
    case 'scupper': {
      const half = times(leftOf(outward), Math.max(size / 2, 1.2));
      const out = times(outward, 3);
      paper.ring(
        'FITTINGS',
        [
          plus(at, half),
          plus(plus(at, half), out),
          plus(plus(at, times(half, -1)), out),
          plus(at, times(half, -1)),
        ],
        pen,
        1,
      );
      drawArrow(paper, 'FITTINGS', plus(at, times(outward, -3)), plus(at, times(outward, 5)), pen, 2);
      return;
    }
    case 'post':
      paper.box('FITTINGS', plus(at, [-radius, -radius]), plus(at, [radius, radius]), pen, 0.2);
      return;
    case 'anchor':
      paper.ring(
        'FITTINGS',
        [plus(at, [0, 1.7]), plus(at, [-1.5, -0.9]), plus(at, [1.5, -0.9])],
        PENS.fitting,
        1,
      );
      paper.circle('FITTINGS', at, 0.35, null, 0);
  }
}

/** Alternate black and white steps, with a figure at each. */
export function drawScaleBar(paper: Paper, at: Place, step: number, labels: readonly string[]): void {
  const tall = 1.8;
  for (let k = 0; k + 1 < labels.length; k++)
    paper.box(
      'SHEET',
      plus(at, [k * step, 0]),
      plus(at, [(k + 1) * step, tall]),
      PENS.dimension,
      k % 2 === 0 ? 0 : 1,
    );
  labels.forEach((label, k) =>
    paper.text('SHEET', plus(at, [k * step, tall + 1]), label, { size: 2.4, align: 'middle' }),
  );
}

export function drawNorth(paper: Paper, at: Place): void {
  paper.circle('SHEET', at, 11, PENS.thin);
  paper.ring('SHEET', [plus(at, [0, 10]), plus(at, [-5, -8]), plus(at, [0, -4.5])], PENS.thin, 0);
  paper.ring('SHEET', [plus(at, [0, 10]), plus(at, [5, -8]), plus(at, [0, -4.5])], PENS.thin, 1);
  paper.text('SHEET', plus(at, [0, 13]), 'N', { size: 5, align: 'middle', weight: 'bold' });
}

/** Scallops round a box, and the revision's letter in a triangle. */
export function drawCloud(paper: Paper, low: Place, high: Place, letter: string): void {
  const corners: Place[] = [low, [high[0], low[1]], high, [low[0], high[1]]];
  const points: Place[] = [];
  corners.forEach((from, k) => {
    const to = corners[(k + 1) % 4] ?? low;
    const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
    const count = Math.max(2, Math.round(length / 9));
    const along = towards(from, to);
    const out = times(leftOf(along), -1);
    for (let n = 0; n < count; n++)
      for (let s = 0; s < 8; s++) {
        const angle = (Math.PI * s) / 8;
        const reach = ((n + 0.5 - Math.cos(angle) / 2) * length) / count;
        points.push(plus(plus(from, times(along, reach)), times(out, Math.sin(angle) * 2.6)));
      }
  });
  paper.ring('SHEET', points, { width: 0.35 });
  const at: Place = [high[0] + 8, high[1] - 2];
  paper.ring('SHEET', [plus(at, [0, 5]), plus(at, [-4.4, -2.6]), plus(at, [4.4, -2.6])], PENS.thin, 1);
  paper.text('SHEET', plus(at, [0, -1.4]), letter, { size: 3.4, align: 'middle', weight: 'bold' });
}

/** Slanted lines over a box, cut to it. */
export function hatchBox(
  paper: Paper,
  low: Place,
  high: Place,
  spacing: number,
  pen: Pen = PENS.hatch,
): void {
  const wide = high[0] - low[0];
  const tall = high[1] - low[1];
  for (let offset = spacing; offset < wide + tall; offset += spacing) {
    const from: Place = offset <= wide ? [low[0] + offset, low[1]] : [high[0], low[1] + offset - wide];
    const to: Place = offset <= tall ? [low[0], low[1] + offset] : [low[0] + offset - tall, high[1]];
    paper.line('HATCH', from, to, pen);
  }
}
