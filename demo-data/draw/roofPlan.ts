// Draws a plan sheet: the roofs to scale, their grid and dimensions. The frame round it is in frame.ts.
import { drawFrame } from './frame';
import { leftOf, Paper, PENS, plus, times, towards } from './ink';
import type { Place } from './ink';
import type { PlanOpening, PlanRoof, PlanSheet } from './plan';
import {
  dimensionFigure,
  drawArrow,
  drawCloud,
  drawDimension,
  drawFitting,
  drawGridBubble,
  drawNorth,
  drawScaleBar,
  hatchBox,
} from './symbols';

export function drawRoofPlan(sheet: PlanSheet): Paper {
  const paper = new Paper(sheet.paper[0], sheet.paper[1]);
  const on = (place: Place): Place => [
    sheet.origin[0] + place[0] / sheet.ratio,
    sheet.origin[1] + place[1] / sheet.ratio,
  ];
  drawGrid(paper, sheet, on);
  for (const roof of sheet.roofs) drawOneRoof(paper, sheet, roof, on);
  for (const string of sheet.strings) drawString(paper, sheet, string, on);
  for (const [low, high] of sheet.clouds) drawCloud(paper, on(low), on(high), sheet.revision);
  drawNorth(paper, sheet.northAt);
  drawDrawingTitle(paper, sheet);
  drawFrame(paper, sheet);
  return paper;
}

type ToPaper = (place: Place) => Place;

function drawGrid(paper: Paper, sheet: PlanSheet, on: ToPaper): void {
  const { low, high } = sheet.gridReach;
  for (const [label, x] of sheet.gridX) {
    const foot = on([x, low[1]]);
    const head = on([x, high[1]]);
    paper.line('GRID', foot, head, PENS.grid);
    drawGridBubble(paper, plus(foot, [0, -5]), label);
    drawGridBubble(paper, plus(head, [0, 5]), label);
  }
  for (const [label, y] of sheet.gridY) {
    const left = on([low[0], y]);
    paper.line('GRID', left, on([high[0], y]), PENS.grid);
    drawGridBubble(paper, plus(left, [-5, 0]), label);
  }
}

function drawOneRoof(paper: Paper, sheet: PlanSheet, roof: PlanRoof, on: ToPaper): void {
  drawEdges(paper, sheet, roof, on);
  for (const opening of roof.openings) drawOpening(paper, sheet, opening, on);
  for (const saddle of roof.saddles) paper.path('ROOF', saddle.map(on), PENS.hidden);
  for (const [from, to] of roof.arrows) drawFallArrow(paper, on(from), on(to), roof.fall.text);
  for (const fitting of roof.fittings) {
    const at = on(fitting.at);
    const east = fitting.at[0] > (sheet.gridReach.low[0] + sheet.gridReach.high[0]) / 2;
    drawFitting(paper, fitting.kind, at, fitting.size / sheet.ratio, [east ? 1 : -1, 0]);
    const beside: Place = fitting.kind === 'scupper' ? [east ? -7 : 7, 1.6] : [3, 1.4];
    paper.text('TEXT', plus(at, beside), fitting.mark, {
      size: 2.3,
      align: fitting.kind === 'scupper' ? 'middle' : 'left',
    });
  }
  for (const x of roof.outlets) {
    const at = plus(on([x, 0]), [0, -2]);
    paper.circle('FITTINGS', at, 1, PENS.fitting, 1);
    paper.text('TEXT', plus(at, [2, -2.2]), 'RWP', { size: 2 });
  }
  const [x, y] = labelPlace(roof);
  const at = on([x, y]);
  paper.text('TEXT', at, roof.name.toUpperCase(), { size: 5, weight: 'bold' });
  paper.text('TEXT', plus(at, [0, -5]), `LEVEL ${roof.level}   ${roof.fall.text}`, { size: 2.8 });
  paper.line('TEXT', plus(at, [0, -1.4]), plus(at, [44, -1.4]), PENS.thin);
}

/** Under the middle of the north side of the roof's first part. */
function labelPlace(roof: PlanRoof): Place {
  const top = Math.max(...roof.outline.map((corner) => corner[1]));
  const left = Math.min(...roof.outline.map((corner) => corner[0]));
  const large = top > 20_000 && roof.openings.length > 0;
  return large ? [left + 8_000, top - 4_600] : [left + 600, top - 800];
}

/** The heavy line is the edge of the roof; outside it parapets show their hatched top, gutters their trough. */
function drawEdges(paper: Paper, sheet: PlanSheet, roof: PlanRoof, on: ToPaper): void {
  const corners = roof.outline;
  const count = corners.length;
  const depth = (k: number): number => {
    const kind = roof.edges[(k + count) % count]?.kind;
    return kind === 'parapet' ? sheet.parapet : kind === 'gutter' ? 180 : kind === 'wall' ? 0 : 120;
  };
  const outer = corners.map((corner, k): Place => {
    const before = towards(corners[(k + count - 1) % count] ?? corner, corner);
    const after = towards(corner, corners[(k + 1) % count] ?? corner);
    return plus(corner, plus(times(leftOf(before), -depth(k - 1)), times(leftOf(after), -depth(k))));
  });
  paper.ring('ROOF', outer.map(on), PENS.thin);
  corners.forEach((corner, k) => {
    const next = corners[(k + 1) % count] ?? corner;
    const kind = roof.edges[k]?.kind;
    const out = times(leftOf(towards(corner, next)), -depth(k));
    const a = on(corner);
    const b = on(plus(next, out));
    const low: Place = [Math.min(a[0], b[0]), Math.min(a[1], b[1])];
    const high: Place = [Math.max(a[0], b[0]), Math.max(a[1], b[1])];
    if (kind === 'parapet') hatchBox(paper, low, high, 1.4);
    if (kind === 'gutter')
      paper.line('ROOF', on(plus(corner, times(out, 0.5))), on(plus(next, times(out, 0.5))), PENS.hair);
  });
  paper.ring('ROOF', corners.map(on), PENS.edge);
}

function drawOpening(paper: Paper, sheet: PlanSheet, opening: PlanOpening, on: ToPaper): void {
  const [low, , high] = opening.ring;
  if (!low || !high) return;
  const a = on(low);
  const b = on(high);
  paper.box('ROOF', a, b, PENS.opening, opening.kind === 'skylight' ? 0.93 : 1);
  const inset = opening.kind === 'courtyard' ? sheet.parapet / sheet.ratio : 0.9;
  const inner: [Place, Place] = [plus(a, [inset, inset]), plus(b, [-inset, -inset])];
  paper.box('ROOF', inner[0], inner[1], PENS.dimension);
  if (opening.kind === 'courtyard' || opening.kind === 'skylight') {
    paper.line('ROOF', inner[0], inner[1], PENS.hair);
    paper.line('ROOF', [inner[0][0], inner[1][1]], [inner[1][0], inner[0][1]], PENS.hair);
  }
  if (opening.kind === 'curb') hatchBox(paper, inner[0], inner[1], 2.2);
  const middle: Place = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  if (opening.kind === 'courtyard') {
    paper.box('TEXT', plus(middle, [-23, -6]), plus(middle, [23, 6]), null, 1);
    paper.text('TEXT', plus(middle, [0, 0.8]), opening.name.toUpperCase(), {
      size: 4,
      align: 'middle',
      weight: 'bold',
    });
    paper.text('TEXT', plus(middle, [0, -4]), 'OPEN TO BELOW', { size: 2.6, align: 'middle' });
    return;
  }
  const tag: Place = [b[0] + 2, b[1] - 2.4];
  paper.text('TEXT', tag, opening.mark, { size: 2.8, weight: 'bold' });
}

function drawFallArrow(paper: Paper, from: Place, to: Place, text: string): void {
  drawArrow(paper, 'ROOF', from, to, { width: 0.3 }, 4.5);
  const middle = times(plus(from, to), 0.5);
  paper.text('TEXT', plus(middle, [-1.2, 0]), text, { size: 2.8, align: 'middle', angle: 90 });
}

function drawString(paper: Paper, sheet: PlanSheet, string: PlanSheet['strings'][number], on: ToPaper): void {
  const place = (stop: number, across: number): Place =>
    on(string.along === 'x' ? [stop, across] : [across, stop]);
  const outwards = Math.sign(string.at - string.from);
  for (const stop of string.stops) {
    const gap = 2 * sheet.ratio * outwards;
    const past = 1.8 * sheet.ratio * outwards;
    paper.line('DIMENSIONS', place(stop, string.from + gap), place(stop, string.at + past), {
      width: 0.13,
      grey: 0.2,
    });
  }
  string.stops.slice(1).forEach((stop, k) => {
    const before = string.stops[k] ?? stop;
    drawDimension(
      paper,
      place(before, string.at),
      place(stop, string.at),
      dimensionFigure(stop - before, sheet.display),
    );
  });
}

function drawDrawingTitle(paper: Paper, sheet: PlanSheet): void {
  const at = sheet.titleAt;
  paper.circle('SHEET', plus(at, [5.5, 2.5]), 5.5, PENS.thin);
  paper.text('SHEET', plus(at, [5.5, 0.9]), '1', { size: 5, align: 'middle', weight: 'bold' });
  paper.text('SHEET', plus(at, [14, 3.4]), sheet.title.toUpperCase(), { size: 5, weight: 'bold' });
  paper.line('SHEET', plus(at, [11, 1.6]), plus(at, [86, 1.6]), PENS.fitting);
  paper.text('SHEET', plus(at, [14, -2.4]), `SCALE ${sheet.scaleNote}`, { size: 3.2 });
  drawScaleBar(paper, plus(at, [122, 0]), sheet.scaleBar.step, sheet.scaleBar.labels);
}
