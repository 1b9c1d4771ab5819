import { describe, expect, it } from 'vitest';
import * as fc from 'fast-check';
import { readLinework } from '../../../core/plan/linework';
import { buildPageIndex } from '../../../core/plan/pageIndex';
import { snapPoint } from '../../../core/plan/snap';
import type { SnapQuery } from '../../../core/plan/snap';
import { seeded } from '../../support/random';
import { pageOf } from './content';

// Two walls that meet at (300, 100), one that crosses the first at (200, 100), and one far away.
const index = buildPageIndex(
  readLinework(
    pageOf([
      {
        points: [
          [100, 100],
          [300, 100],
          [300, 300],
        ],
      },
      {
        points: [
          [200, 50],
          [200, 150],
        ],
      },
      {
        points: [
          [10, 390],
          [20, 390],
        ],
      },
    ]),
  ),
);

const ask = (x: number, y: number, more: Partial<SnapQuery> = {}) =>
  snapPoint(index, {
    pointer: [x, y],
    radius: 5,
    placed: [],
    corners: [],
    ortho: 'free',
    last: null,
    ...more,
  });

describe('snapPoint', () => {
  it('catches the end of a line before the line itself', () => {
    expect(ask(297, 101)).toMatchObject({ at: [300, 100], kind: 'line end' });
    expect(ask(250, 102)).toMatchObject({ at: [250, 100], kind: 'line' });
    expect(ask(250, 120)).toBeNull();
  });
  it('catches crossings and says so', () => {
    expect(ask(203, 102)).toMatchObject({
      at: [200, 100],
      kind: 'line crossing',
      label: 'where two lines cross',
    });
  });
  it('catches a corner already drawn, but a line end first', () => {
    expect(ask(240, 203, { corners: [[240, 200]] })).toMatchObject({ at: [240, 200], kind: 'corner' });
    expect(ask(300.5, 299, { corners: [[301, 300]] })).toMatchObject({ at: [300, 300], kind: 'line end' });
  });
  it('closes on the first corner before anything else, once there are three', () => {
    const placed = [
      [301, 101],
      [400, 100],
      [400, 200],
    ] as const;
    expect(ask(300, 100, { placed })).toMatchObject({ at: [301, 101], kind: 'first corner' });
    expect(ask(300, 100, { placed: placed.slice(0, 2) })).toMatchObject({ kind: 'line end' });
  });
  it('keeps square to the page and to a slanted last side', () => {
    expect(ask(152, 240, { placed: [[150, 200]] })).toMatchObject({ at: [150, 240], kind: 'guide' });
    // Last side (400, 310) → (430, 350) runs 3 : 4; square to it leads along (−4, 3): (390, 380) lies on it.
    const placed = [
      [400, 310],
      [430, 350],
    ] as const;
    const snap = ask(391, 380, { placed });
    expect(snap).toMatchObject({ kind: 'guide', label: 'square to the last side' });
    expect(snap?.at[0]).toBeCloseTo(390.64, 9);
    expect(snap?.at[1]).toBeCloseTo(379.52, 9);
  });
  it('catches the middle of a line, and on it the foot of the square from the last corner', () => {
    expect(ask(301, 202)).toMatchObject({
      at: [300, 200],
      kind: 'line middle',
      label: 'the middle of a line',
    });
    // From (120, 200) to the line through (100, 100) and (300, 200): its foot is (156, 128).
    const slanted = buildPageIndex(
      readLinework(
        pageOf([
          {
            points: [
              [100, 100],
              [300, 200],
            ],
          },
        ]),
      ),
    );
    const query: SnapQuery = {
      pointer: [157, 130],
      radius: 5,
      placed: [[120, 200]],
      corners: [],
      ortho: 'free',
      last: null,
    };
    const snap = snapPoint(slanted, query);
    expect(snap?.label).toBe('square to a line');
    expect(snap?.at[0]).toBeCloseTo(156, 9);
    expect(snap?.at[1]).toBeCloseTo(128, 9);
  });
  it('locked, stays on the guide and stops level with what the drawing offers', () => {
    const placed = [[150, 200]] as const;
    expect(ask(260, 230, { placed, ortho: 'locked' })).toMatchObject({ at: [260, 200], kind: 'guide' });
    expect(ask(290, 212, { placed, ortho: 'locked' })).toMatchObject({ at: [290, 200], kind: 'guide' });
    expect(ask(297, 212, { placed, ortho: 'locked' })).toMatchObject({ at: [300, 200], kind: 'line' });
    expect(ask(298, 203, { placed, ortho: 'locked' })).toMatchObject({ at: [300, 200], kind: 'line middle' });
    expect(ask(152, 97, { placed, ortho: 'locked' })).toMatchObject({ at: [150, 100], kind: 'line' });
  });
  it('offers the corner that closes square', () => {
    const placed = [
      [420, 320],
      [480, 320],
      [480, 360],
    ] as const;
    expect(ask(422, 358, { placed })).toMatchObject({ at: [420, 360], kind: 'guides' });
  });
  it('holds a point until the pointer is one and a half radii away', () => {
    const last = ask(297, 101);
    expect(ask(293.5, 101, { last })).toMatchObject({ at: [300, 100] });
    expect(ask(292, 101, { last })).toMatchObject({ kind: 'line' });
  });
  it('works on a page without lines', () => {
    const query = { pointer: [12, 10], radius: 5, corners: [[10, 10]], placed: [], last: null } as const;
    expect(snapPoint(null, { ...query, ortho: 'free' })).toMatchObject({ at: [10, 10], kind: 'corner' });
  });

  it('law: snapping a snapped point returns it', () => {
    const place = fc.tuple(fc.integer({ min: 0, max: 120 }), fc.integer({ min: 0, max: 120 }));
    const lines = fc.array(fc.tuple(place, place), { maxLength: 25 });
    const corners = fc.array(place, { maxLength: 6 });
    const pointer = fc.tuple(
      fc.double({ min: 0, max: 120, noNaN: true }),
      fc.double({ min: 0, max: 120, noNaN: true }),
    );
    fc.assert(
      fc.property(
        lines,
        corners,
        corners,
        pointer,
        fc.constantFrom('free' as const, 'locked' as const),
        (drawn, placed, others, at, ortho) => {
          const page = buildPageIndex(readLinework(pageOf(drawn.map((points) => ({ points })))));
          const query: SnapQuery = { pointer: at, radius: 6, placed, corners: others, ortho, last: null };
          const snap = snapPoint(page, query);
          if (!snap) return;
          const again = snapPoint(page, { ...query, pointer: snap.at });
          expect(again).not.toBeNull();
          expect(Math.hypot(snap.at[0] - again!.at[0], snap.at[1] - again!.at[1])).toBeLessThan(0.000001);
        },
      ),
      { seed: 20261, numRuns: 2000 },
    );
  });
});

describe('in a thicket of lines', () => {
  const { next: random } = seeded(5);
  const lines = Array.from({ length: 400 }, () => {
    const [x, y, turn] = [random() * 300, random() * 200, random() * 7];
    return {
      points: [
        [x, y],
        [x + 60 * Math.cos(turn), y + 60 * Math.sin(turn)],
      ] as const,
    };
  });
  const thicket = buildPageIndex(readLinework(pageOf(lines)));
  const points = lines.flatMap(({ points: [a, b] }, k) => [
    a,
    b,
    ...lines.slice(k + 1).flatMap(({ points: [c, d] }) => crossingOf(a, b, c, d)),
  ]);
  it('what is caught is the nearest of all ends and crossings', () => {
    let caught = 0;
    for (let n = 0; n < 100; n++) {
      const pointer = [20 + random() * 260, 20 + random() * 160] as const;
      const snap = snapPoint(thicket, {
        pointer,
        radius: 4,
        placed: [],
        corners: [],
        ortho: 'free',
        last: null,
      });
      const least = Math.min(...points.map((at) => Math.hypot(at[0] - pointer[0], at[1] - pointer[1])));
      // From a line a snap is followed to what is near that, and not near the pointer.
      if (least > 4) continue;
      caught++;
      expect(['line end', 'line crossing']).toContain(snap?.kind);
      expect(Math.hypot((snap?.at[0] ?? 0) - pointer[0], (snap?.at[1] ?? 0) - pointer[1])).toBeCloseTo(
        least,
        9,
      );
    }
    expect(caught).toBeGreaterThan(50);
  });
});

type Spot = readonly [number, number];

/** By Cramer's rule; none where the two do not cross. */
function crossingOf(a: Spot, b: Spot, c: Spot, d: Spot): Spot[] {
  const det = (b[0] - a[0]) * (d[1] - c[1]) - (b[1] - a[1]) * (d[0] - c[0]);
  const s = ((c[0] - a[0]) * (d[1] - c[1]) - (c[1] - a[1]) * (d[0] - c[0])) / det;
  const t = ((c[0] - a[0]) * (b[1] - a[1]) - (c[1] - a[1]) * (b[0] - a[0])) / det;
  return s >= 0 && s <= 1 && t >= 0 && t <= 1 ? [[a[0] + s * (b[0] - a[0]), a[1] + s * (b[1] - a[1])]] : [];
}
