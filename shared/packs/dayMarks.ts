// What is written on a day's map: where each sheet is set down and which way it is unrolled, its name, and the numbers of
// the welds. Promise: names and numbers stand clear of each other and of what is drawn, as far as the paper has room; one
// that does not stand at its place is joined to it by a line, and none is left out.
import { insideRings } from '../../core/drawing/places';
import { setDownPoint } from '../../core/drawing/setOut';
import type { RoofEstimate } from '../../core/job/result';
import type { Layout, Sheet } from '../../core/sheets/types';
import type { WeldRun, WorkDay } from '../../core/welding/types';
import type { PackPage, Spot } from './canvas';
import { keyCorner } from './dayKey';
import type { Fit } from './fitRoof';
import { boxesRound, cornersOf, LabelRoom, sharesFrom, type LabelBox } from './labelRoom';
import { cornerNames } from './paintCorners';
import { frameOf } from './setOutWords';

/** Printed sizes for reading with gloves on, at arm's length. */
const NAME = { size: 12, weight: 'bold', align: 'middle' } as const;
const NUMBER = { size: 10.5, weight: 'bold', align: 'middle' } as const;
/** Points of white round a label. */
const AIR = 2;
/** Capitals and figures stand so high over their foot, as a share of their size. */
const CAPITAL = 0.72;

interface MarkedDay {
  readonly roof: RoofEstimate;
  readonly day: WorkDay;
  readonly runs: readonly WeldRun[];
  readonly fit: Fit;
  /** The frame of the map. */
  readonly low: Spot;
  readonly high: Spot;
  /** The laps that stay open for the night. */
  readonly open: readonly Pick<WeldRun, 'from' | 'to'>[];
  /** Whether the whole roof stands small in its upper right corner. */
  readonly keyed: boolean;
}

export function paintMarks(page: PackPage, marked: MarkedDay): void {
  const { roof, day, runs, fit } = marked;
  const { layout } = roof;
  if (!roof.roof || !layout) return;
  const rings = [roof.roof.outline, ...roof.roof.openings.map(({ ring }) => ring)].map((ring) =>
    ring.map(fit.toPaper),
  );
  const room = roomOn(page, marked, rings);
  const laid = day.sheets.flatMap(({ roof: on, sheet, towards }) => {
    const piece = on === roof.id ? layout.sheets.find(({ id }) => id === sheet) : undefined;
    return piece ? [{ piece, towards }] : [];
  });
  for (const { piece, towards } of laid)
    room.take(paintSetDown(page, fit.toPaper(setDownPoint(piece, towards)), towards, frameOf(layout, piece)));
  // What has one place only comes first.
  const short = (run: WeldRun) => lengthOn(run, fit) < 30;
  const numbered = runs.filter(({ kind }) => kind !== 't-joint' && kind !== 'corner');
  const numbers = (list: readonly WeldRun[]) => list.forEach((run) => paintNumber(page, run, fit, room));
  numbers(numbered.filter(short));
  for (const { piece } of laid) paintName(page, piece, layout, fit, room, rings);
  numbers(numbered.filter((run) => !short(run)));
}

/** The map with everything that no label is to stand on. */
function roomOn(
  page: PackPage,
  { roof, runs, fit, low, high, open, keyed }: MarkedDay,
  rings: readonly (readonly Spot[])[],
): LabelRoom {
  const room = new LabelRoom(low, high);
  const round = ([x, y]: Spot, by: number) =>
    cornersOf({ middle: [x, y], width: 2 * by, height: 2 * by, angle: 0 });
  if (keyed) room.take(cornersOf({ ...boxOf(keyCorner(high), high), angle: 0 }));
  for (const { low: a, high: b } of cornerNames(page, roof.roof, roof.letter, fit))
    room.take(cornersOf({ ...boxOf(a, b), angle: 0 }));
  for (const { at, kind } of roof.roof?.fittings ?? [])
    if (kind === 'drain' || kind === 'scupper') room.take(round(fit.toPaper(at), 3.4));
  for (const ring of rings)
    ring.forEach((from, k) => room.spare([from, ring[(k + 1) % ring.length] as Spot], 'roof'));
  for (const { from, to } of open) room.spare([fit.toPaper(from), fit.toPaper(to)], 'night');
  for (const run of runs) {
    const [from, to] = [fit.toPaper(run.from), fit.toPaper(run.to)];
    if (run.kind === 't-joint') room.take(round(from, 2));
    else if (run.kind === 'corner' || run.kind === 'boot') room.take(round(from, 3.4));
    else room.spare([from, to], run.id);
  }
  return room;
}

const boxOf = (low: Spot, high: Spot) => ({
  middle: [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2] as const,
  width: high[0] - low[0],
  height: high[1] - low[1],
});

/** A square where the sheet is set down and an open arrow the way that it is unrolled; gives the room they take. */
function paintSetDown(
  page: PackPage,
  corner: Spot,
  towards: number,
  frame: Layout['frame'],
): readonly Spot[] {
  const turn = (towards * Math.PI) / 180;
  const along: Spot = [Math.cos(turn), Math.sin(turn)];
  const up: Spot = [-frame.sin, frame.cos];
  const put = (far: number, aside: number): Spot => [
    corner[0] + along[0] * far + up[0] * aside,
    corner[1] + along[1] * far + up[1] * aside,
  ];
  const from = put(9, 8);
  page.box([from[0] - 3, from[1] - 3], [from[0] + 3, from[1] + 3], { fill: 1, stroke: { width: 1.1 } });
  const tip = put(36, 8);
  page.line(put(13, 8), tip, { width: 1.1 });
  page.path([put(30, 11), tip, put(30, 5)], { width: 1.1 });
  return [put(5, 4), put(37, 4), put(37, 12), put(5, 12)];
}

//   along the sheet in its middle, then beside the middle; on the roof and in no opening. Else next to the sheet.
function paintName(
  page: PackPage,
  sheet: Sheet,
  layout: Layout,
  fit: Fit,
  room: LabelRoom,
  rings: readonly (readonly Spot[])[],
): void {
  const corners = sheet.corners.map(fit.toPaper);
  const [a, b, c, d] = corners as [Spot, Spot, Spot, Spot];
  const size = sizeOf(page, sheet.id, NAME);
  // Read from the foot of the paper or from its right side, as on the drawing of the sheets.
  const turn = frameOf(layout, sheet).direction % 180;
  const angle = turn > 90 + UPRIGHT_DEG ? turn - 180 : turn;
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const half = size.width / 2 / length;
  const at = (along: number, up: number): Spot => [
    a[0] + (b[0] - a[0]) * along + (d[0] - a[0]) * up,
    a[1] + (b[1] - a[1]) * along + (d[1] - a[1]) * up,
  ];
  const wishes = [0.5, 0.33, 0.67].flatMap((up) =>
    half > 0.5
      ? []
      : sharesFrom(0.5, half, 1 - half).map((share) => ({ ...size, middle: at(share, up), angle })),
  );
  const onRoof = wishes.filter((box) => cornersOf(box).every((corner) => insideRings(corner, rings)));
  const middle: Spot = [(a[0] + c[0]) / 2, (a[1] + c[1]) / 2];
  const own = room.put(onRoof);
  if (own) paintLabel(page, own, sheet.id, NAME);
  else paintBeside(page, middle, sheet.id, NAME, room);
}

/** A direction so little past the upright still reads from the right. */
const UPRIGHT_DEG = 1;

function paintNumber(page: PackPage, run: WeldRun, fit: Fit, room: LabelRoom): void {
  const at = (share: number) =>
    fit.toPaper([
      run.from[0] + (run.to[0] - run.from[0]) * share,
      run.from[1] + (run.to[1] - run.from[1]) * share,
    ]);
  const text = String(run.order);
  const size = sizeOf(page, text, NUMBER);
  const length = lengthOn(run, fit);
  // On the weld, but not on its ends; one too short for that has its number beside it.
  const end = size.height / 2 / length;
  const shares =
    length < 1.5 * size.height ? [] : sharesFrom(run.kind === 'end-lap' ? 0.62 : 0.35, end, 1 - end);
  const own = room.put(
    shares.map((share) => ({ ...size, middle: at(share), angle: 0 })),
    run.id,
  );
  if (own) paintLabel(page, own, text, NUMBER);
  else paintBeside(page, at(0.5), text, NUMBER, room);
}

/** Near its place, where there is room, and joined to it. */
function paintBeside(page: PackPage, place: Spot, text: string, style: Style, room: LabelRoom): void {
  const { width, height } = sizeOf(page, text, style);
  const wishes = boxesRound(place, width, height);
  const box = room.put(wishes) ?? (wishes[0] as LabelBox);
  page.line(place, box.middle, { width: 0.7 });
  page.circle(place, 1.3, { fill: 0 });
  paintLabel(page, box, text, style);
}

function paintLabel(page: PackPage, box: LabelBox, text: string, style: Style): void {
  page.area([cornersOf(box)], 1, 0.94);
  const turn = (box.angle * Math.PI) / 180;
  const down = (CAPITAL / 2) * style.size;
  const foot: Spot = [box.middle[0] + Math.sin(turn) * down, box.middle[1] - Math.cos(turn) * down];
  page.text(foot, text, { ...style, angle: box.angle });
}

type Style = typeof NAME | typeof NUMBER;

const sizeOf = (page: PackPage, text: string, style: Style) => ({
  width: page.widthOf(text, style) + 2 * AIR,
  height: CAPITAL * style.size + 2 * AIR,
});

function lengthOn({ from, to }: WeldRun, { scale }: Fit): number {
  return Math.hypot(to[0] - from[0], to[1] - from[1]) * scale;
}
