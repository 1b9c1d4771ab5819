// Laying: spans against clipping, and a whole layout.
import { ringToFrame, frameOf } from '../../core/sheets/frame';
import { layCourses } from '../../core/sheets/layCourses';
import { layRoof } from '../../core/sheets/layRoof';
import { spanCourses } from '../../core/sheets/spanCourses';
import { packRegion } from '../../core/geometry/strips';
import { findSeams } from '../../core/seams/findSeams';
import { busyRoof, layoutSpec } from '../support/roofs';
import { clippedSpans } from '../support/plainWays';
import { ms, timeByTurns, type Row } from './measure';

export function benchLaying(quick: boolean): Row[] {
  const rows: Row[] = [];
  for (const { name, area, corners, openings, atLeast } of [
    { name: '5,000 m², 200 corners, 40 openings', area: 5000e6, corners: 200, openings: 40, atLeast: 15 },
    {
      name: '100,000 m², 2,000 corners, 500 openings',
      area: 100_000e6,
      corners: 2000,
      openings: 500,
      atLeast: 100,
    },
  ]) {
    const roof = busyRoof(1, area, corners, openings);
    const rings = [roof.outline, ...roof.openings.map((o) => o.ring)].map((ring) =>
      ringToFrame(frameOf(0), ring),
    );
    const region = packRegion(rings);
    const courses = layCourses(region.v, { id: 'r', width: 3000, length: 30_000, cost: 0 }, null, {
      firstCourse: 0,
      sideLap: 120,
    });
    const strips = courses.map((c) => [c.low, c.low + c.width] as const);
    const rules = { minPiece: 0, cutAllowance: 0 };
    const [own, plain] = timeByTurns(
      [() => spanCourses(courses, packRegion(rings), rules), () => clippedSpans(rings, strips)],
      quick ? 5 : 15,
    ) as [ReturnType<typeof timeByTurns>[number], ReturnType<typeof timeByTurns>[number]];
    rows.push({
      name: `runs of ${name}`,
      figure: `${ms(own)}; by clipping ${ms(plain)}`,
      ratio: { value: plain.median / own.median, atLeast, against: 'clipping each course with clipper-lib' },
    });
  }
  const roof = busyRoof(1, 5000e6, 200, 40);
  const [layout] = timeByTurns([() => layAndJoin(roof)], quick ? 15 : 40) as [
    ReturnType<typeof timeByTurns>[number],
  ];
  rows.push({
    name: 'layout of 5,000 m², 200 corners, 40 openings (two directions, seams)',
    figure: ms(layout),
  });
  return rows;
}

function layAndJoin(roof: ReturnType<typeof busyRoof>): unknown {
  const laid = layRoof(roof, layoutSpec({ direction: 'auto' }));
  if ('faults' in laid) throw new Error(laid.faults[0]?.message);
  return findSeams(roof, laid.layout);
}
