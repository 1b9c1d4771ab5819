// Which part of a roof a day's map shows, and the small picture of the whole roof beside it.
import type { RoofEstimate } from '../../core/job/result';
import type { WeldRun, WorkDay } from '../../core/welding/types';
import type { PackPage, Spot } from './canvas';
import { paintCorners } from './paintCorners';
import { RULES } from './paper';

/** The corners of what is laid and welded in a day, with what lies around it. */
export function workedOn(
  { layout }: RoofEstimate,
  day: WorkDay,
  runs: readonly WeldRun[],
): readonly (readonly [number, number])[] {
  const own = new Set(day.sheets.map(({ sheet }) => sheet));
  const places = [
    ...(layout?.sheets ?? []).filter(({ id }) => own.has(id)).flatMap(({ corners }) => corners),
    ...runs.flatMap(({ from, to }) => [from, to]),
  ];
  return places.flatMap(([x, y]) => [
    [x - AROUND_MM, y - AROUND_MM] as const,
    [x + AROUND_MM, y + AROUND_MM] as const,
  ]);
}

/** What is shown around the day's part, mm. */
const AROUND_MM = 2000;

/** The whole roof small, with its corners' names and the day's part dark. */
export function paintKey(page: PackPage, roof: RoofEstimate, day: WorkDay, low: Spot): void {
  if (!roof.roof || !roof.layout) return;
  const high: Spot = [low[0] + KEY.width, low[1] + KEY.height];
  page.box(low, high, { fill: 1, stroke: RULES.thin });
  const xs = roof.roof.outline.map(([x]) => x);
  const ys = roof.roof.outline.map(([, y]) => y);
  const [left, bottom] = [Math.min(...xs), Math.min(...ys)];
  const scale = Math.min(
    (KEY.width - 2 * KEY.air) / (Math.max(...xs) - left),
    (KEY.height - 2 * KEY.air) / (Math.max(...ys) - bottom),
  );
  const origin: Spot = [low[0] + KEY.air - left * scale, low[1] + KEY.air - bottom * scale];
  const toPaper = ([x, y]: readonly [number, number]): Spot => [origin[0] + x * scale, origin[1] + y * scale];
  const rings = [roof.roof.outline, ...roof.roof.openings.map((o) => o.ring)].map((ring) =>
    ring.map(toPaper),
  );
  const own = new Set(day.sheets.filter((sheet) => sheet.roof === roof.id).map(({ sheet }) => sheet));
  page.clipped(rings, () => {
    for (const sheet of roof.layout?.sheets ?? [])
      if (own.has(sheet.id)) page.area([sheet.corners.map(toPaper)], 0, 0.4);
  });
  for (const ring of rings) page.path(ring, { width: 0.8 }, 'closed');
  paintCorners(page, roof, { ratio: 1 / scale, scale, origin, toPaper });
}

/** Its lower left corner in a frame with that upper right one. */
export const keyCorner = (high: Spot): Spot => [high[0] - KEY.width - 8, high[1] - KEY.height - 8];

/** Points. */
export const KEY = { width: 132, height: 104, air: 22 };
