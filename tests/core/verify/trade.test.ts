// Each rule of the trade has a layout broken in just that way, which the verifier must catch, and sound ones that it
// must let pass.
import { describe, expect, it } from 'vitest';
import { placeFasteners } from '../../../core/fastening/placeFasteners';
import type { Fitting, Roof, RoofSpec } from '../../../core/roof/types';
import { fourWayFall } from '../../../core/roof/water';
import { findSeams } from '../../../core/seams/findSeams';
import { layRoof } from '../../../core/sheets/layRoof';
import type { LayoutSpec, TradeRules } from '../../../core/sheets/types';
import { rulesOf, type Verified } from '../../../core/verify/evidence';
import { verify } from '../../../core/verify/verifyLayout';
import { built, layoutSpec, PLAIN_TRADE, rectangle, ringSpec, roofSpec, turned } from '../../support/roofs';

const trade = (changes: Partial<TradeRules>): TradeRules => ({ ...PLAIN_TRADE, ...changes });

/** A layout of one roof, to be held against the rules of the same or another. */
function laid(roof: Roof, spec: LayoutSpec): Verified {
  const done = layRoof(roof, spec);
  if ('faults' in done) throw new Error(done.faults[0]?.message);
  const { layout } = done;
  const seams = findSeams(roof, layout);
  const spacing = { inLap: 300, atEdge: 300 };
  return {
    roof,
    direction: layout.rules.direction,
    sheets: layout.sheets,
    seams,
    rows: placeFasteners(roof, layout, seams, spacing).rows,
    rules: rulesOf(spec),
    spacing,
  };
}

const held = (given: Verified) => [...new Set(verify(given).map(({ rule }) => rule))].sort();
const under = (given: Verified, changes: Partial<TradeRules>): Verified => ({
  ...given,
  rules: { ...given.rules, trade: { ...given.rules.trade, ...changes } },
});
const roofOf = (changes: Partial<RoofSpec>, width = 40_000, height = 12_000): Roof =>
  built({ ...roofSpec(rectangle(width, height)), ...changes });
const drainAt = (x: number, y: number): Fitting => ({ id: 'drain', kind: 'drain', at: [x, y], size: 200 });

describe('water', () => {
  const drain = drainAt(20_000, 5900);
  const roof = roofOf({
    fittings: [drain],
    facets: fourWayFall(rectangle(40_000, 12_000), drain.at, 0.02, (side) => `f${side}`),
  });
  const spec = layoutSpec();

  it('a four-way fall laid course by course faces no water', () => {
    expect(held(laid(roof, spec))).toEqual([]);
  });

  it('the wrong sheet over is advice far from the drain', () => {
    const sound = laid(roof, spec);
    // The second piece of the line lies between the left and the right plane.
    const first = sound.seams.sideLaps[1];
    const flipped = {
      ...sound,
      seams: {
        ...sound.seams,
        sideLaps: sound.seams.sideLaps.map((lap) =>
          lap === first ? { ...lap, over: lap.between.find((id) => id !== lap.over) as string } : lap,
        ),
      },
    };
    expect(held(flipped)).toEqual(['lap-faces-water']);
    expect(held(under(flipped, { off: ['sheds-water'] }))).toEqual([]);
  });

  // The row along the upper side ends 12 m from the left, where the roof steps up; water runs out of its end. Turned,
  // arithmetic leaves the line across the row beside the place that it is looked at from.
  it.each([0, 17, 123, 211, 287])(
    'turned by %i°, a row ends on the field downslope and lies over it; the other way its end faces the water',
    (angle) => {
      const corners = turned(
        [
          [0, 0],
          [30_000, 0],
          [30_000, 9000],
          [12_000, 9000],
          [12_000, 12_000],
          [0, 12_000],
        ],
        angle,
      );
      const { edges } = ringSpec(corners, 'e');
      const rows = { sheets: 1, width: 1500 };
      const outline = { corners, edges: edges.map((e, i) => ({ ...e, perimeter: i === 2 ? rows : null })) };
      const sound = laid(
        built({ ...roofSpec(corners), outline, fall: { downhill: (180 + angle) % 360, ratio: 0.02 } }),
        layoutSpec({ direction: angle % 180 }),
      );
      const [ex, ey] = [Math.cos((angle * Math.PI) / 180), Math.sin((angle * Math.PI) / 180)];
      const atEnd = sound.seams.sideLaps.find(
        ({ betweenBands, from, to }) =>
          betweenBands && Math.abs((from[0] - to[0]) * ex + (from[1] - to[1]) * ey) < 1,
      );
      expect(held(sound)).toEqual([]);
      const sideLaps = sound.seams.sideLaps.map((lap) =>
        lap === atEnd ? { ...lap, over: lap.between[1] } : lap,
      );
      expect(held({ ...sound, seams: { ...sound.seams, sideLaps } })).toEqual(['lap-faces-water']);
    },
  );

  it('and an error beside it', () => {
    const sound = laid({ ...roof, fittings: [{ ...drain, clear: 5000 }] }, layoutSpec());
    const flipped = {
      ...sound,
      seams: {
        ...sound.seams,
        sideLaps: sound.seams.sideLaps.map((lap) => ({
          ...lap,
          over: lap.between.find((id) => id !== lap.over) as string,
        })),
      },
    };
    expect(held(flipped)).toContain('lap-faces-water-low');
  });
});

describe('valleys and drains', () => {
  const valley = (y: number) =>
    roofOf({ lines: [{ id: 'v', kind: 'valley', from: [0, y], to: [40_000, y] }] });

  it('a valley along the courses lies in the middle of a sheet', () => {
    expect(held(laid(valley(2940), layoutSpec({ roll: LONG })))).toEqual([]);
  });

  it('a side lap along it is caught, and a sheet off its middle is advice', () => {
    const blind = laid(valley(2940), layoutSpec({ roll: LONG, trade: trade({ off: ['valley-clear'] }) }));
    expect(held(blind)).toEqual([]);
    expect(held(under(blind, { off: [] }))).toEqual(['lap-in-valley', 'valley-off-centre']);
    const beside = laid(valley(2200), layoutSpec({ roll: LONG, trade: trade({ off: ['valley-clear'] }) }));
    expect(held(under(beside, { off: [] }))).toEqual(['valley-off-centre']);
  });

  it('an end lap in a valley across the courses is caught, and kept off it when laid', () => {
    const across = roofOf({ lines: [{ id: 'v', kind: 'valley', from: [29_960, 0], to: [29_960, 12_000] }] });
    const blind = laid(across, layoutSpec({ trade: trade({ off: ['valley-clear'] }) }));
    expect(held(under(blind, { off: [] }))).toEqual(['lap-in-valley']);
    expect(held(laid(across, layoutSpec()))).toEqual([]);
  });

  it('a lap at a drain is let pass under a target sheet, and caught without', () => {
    const given = laid(roofOf({ fittings: [drainAt(10_000, 2940)] }), layoutSpec());
    expect(given.seams.targets).toHaveLength(1);
    expect(held(given)).toEqual([]);
    expect(held({ ...given, seams: { ...given.seams, targets: [] } })).toEqual(['lap-near-drain']);
    const small = given.seams.targets.map((target) => ({ ...target, side: 600 }));
    expect(held({ ...given, seams: { ...given.seams, targets: small } })).toEqual(['lap-near-drain']);
  });
});

const LONG = { id: 'long', width: 3000, length: 60_000, cost: 0 };

describe('room beside things', () => {
  it('a side lap where a machine has no room', () => {
    // The last lap of four courses would lie from 8640 to 8760, 240 mm from the upper edge.
    const roof = built({
      ...roofSpec(rectangle(40_000, 9000)),
      outline: ringSpec(rectangle(40_000, 9000), 'e', { clear: 300 }),
    });
    const blind = laid(roof, layoutSpec({ trade: trade({ off: ['edge-clear'] }) }));
    expect(held(under(blind, { off: [] }))).toEqual(['lap-along-edge']);
    expect(held(laid(roof, layoutSpec()))).toEqual([]);
  });

  it('an end lap at the corner of an opening', () => {
    const roof = built(roofSpec(rectangle(40_000, 12_000), [rectangle(2000, 1000, 29_900, 1000)]));
    const blind = laid(roof, layoutSpec());
    expect(held(under(blind, { cornerClear: 300 }))).toEqual(['end-lap-near-corner']);
    expect(held(laid(roof, layoutSpec({ trade: trade({ cornerClear: 300 }) })))).toEqual([]);
  });

  it('a course too narrow is caught; one balanced by a wider lap is let pass', () => {
    // Four whole courses reach 11 640 mm; the fifth would lie over 480 mm.
    const roof = roofOf({}, 40_000, 12_000);
    const blind = laid(roof, layoutSpec({ roll: LONG }));
    expect(held(under(blind, { minWidth: 1000 }))).toEqual(['narrow-course']);
    const shifted = laid(roof, layoutSpec({ roll: LONG, trade: trade({ minWidth: 1000 }) }));
    expect(held(shifted)).toEqual([]);
    const balanced = laid(roof, layoutSpec({ roll: LONG, firstCourse: 0, trade: trade({ minWidth: 1000 }) }));
    expect(held(balanced)).toEqual(['wide-lap']);
    expect(verify(balanced).every(({ severity }) => severity === 'advice')).toBe(true);
  });

  it('a live unit that a sheet would be dropped over', () => {
    const post: Fitting = { id: 'post', kind: 'post', at: [10_000, 1500], size: 300, blocks: 'live' };
    const given = laid(roofOf({ fittings: [post] }), layoutSpec());
    expect(given.seams.slits).toHaveLength(1);
    expect(given.seams.slits[0]?.length).toBeCloseTo(1350, 6);
    expect(held(given)).toEqual([]);
    expect(held({ ...given, seams: { ...given.seams, slits: [] } })).toEqual(['dropped-over']);
  });
});

describe('lines and rows', () => {
  it.each(['expansion', 'tie-in', 'phase'] as const)('a sheet across a %s line', (kind) => {
    const line = roofOf({ lines: [{ id: 'l', kind, from: [15_000, 0], to: [15_000, 12_000] }] });
    const blind = laid(roofOf({}), layoutSpec());
    expect(held({ ...blind, roof: line })).toEqual(['crosses-line']);
    expect(held(laid(line, layoutSpec()))).toEqual([]);
  });

  it('rows that were asked for and are not there; field ends in one line on them are let pass', () => {
    const rows = { sheets: 2, width: 1500 };
    const rowed = built({
      ...roofSpec(rectangle(40_000, 12_000)),
      outline: ringSpec(rectangle(40_000, 12_000), 'e', { perimeter: rows }),
    });
    const given = laid(rowed, layoutSpec());
    expect(held(given)).toEqual([]);
    expect(held({ ...laid(roofOf({}), layoutSpec()), roof: rowed })).toEqual(['edge-rows-missing']);
    const more = built({
      ...roofSpec(rectangle(40_000, 12_000)),
      outline: ringSpec(rectangle(40_000, 12_000), 'e', { perimeter: { sheets: 1, width: 1500 } }),
    });
    expect(held({ ...given, roof: more })).toEqual(['edge-rows']);
  });

  it('the end lap of a row keeps off the corner at which the next row meets the field', () => {
    // The row along the right side meets the field 24.00 − 1.44 = 22.56 m from the left. Off a roll of 22.60 m the lower
    // row's end lap of 80 mm would have its middle just there.
    const ring = rectangle(24_000, 12_000);
    const rowed = built({
      ...roofSpec(ring),
      outline: ringSpec(ring, 'e', { perimeter: { sheets: 1, width: 1500 } }),
    });
    const roll = { id: 'short', width: 3000, length: 22_600, cost: 0 };
    const given = laid(rowed, layoutSpec({ roll, lap: { minPiece: 1000 } }));
    const [lap] = given.seams.endLaps.filter(({ between }) => between.every((id) => id.startsWith('E0-')));
    expect(Math.abs((lap?.from[0] ?? 22_560) - 22_560)).toBeGreaterThanOrEqual(300);
    expect(held(given)).toEqual([]);
  });

  it('a row that does not reach under the field', () => {
    const rowed = built({
      ...roofSpec(rectangle(40_000, 12_000)),
      outline: ringSpec(rectangle(40_000, 12_000), 'e', { perimeter: { sheets: 1, width: 1500 } }),
    });
    const given = laid(rowed, layoutSpec());
    const [, row] = /^(E\d+-C01\.\d+)$/.exec(given.sheets.find(({ band }) => band === 'E0')?.id ?? '') ?? [];
    const moved = {
      ...given,
      sheets: given.sheets.map((sheet) =>
        sheet.id === row
          ? { ...sheet, corners: sheet.corners.map(([x, y]) => [x, y - 100] as const) }
          : sheet,
      ),
    };
    expect(held(moved)).toContain('short-side-lap');
  });
});

describe('a row that ends on an expansion joint at 17°', () => {
  // The joint meets the lower edge at 15.00 m. The middle of the row's lap on the field lies 1.50 − 0.06 = 1.44 m in, and
  // the joint there at 15.00 + 1.44 ÷ tan 17° = 19.71 m. Courses count from the right, the first from 30.00 + 1.164 m: the
  // middle of the fourth lap lies at 31.164 − 4 × 2.88 − 0.06 = 19.584 m. The piece between is 0.126 m long, and half a
  // lap down from its middle, at 1.38 m, the joint has been passed at 15.00 + 1.38 ÷ tan 17° = 19.51 m.
  const slope = Math.tan((17 * Math.PI) / 180);
  const ring = rectangle(30_000, 12_000);
  const { edges } = ringSpec(ring, 'e');
  const rows = { sheets: 1, width: 1500 };
  const outline = { corners: ring, edges: edges.map((e, i) => ({ ...e, perimeter: i === 0 ? rows : null })) };
  const joint = {
    id: 'joint',
    kind: 'expansion',
    from: [0, -15_000 * slope],
    to: [30_000, 15_000 * slope],
  } as const;
  const sound = laid(
    built({ ...roofSpec(ring), outline, lines: [joint] }),
    layoutSpec({ direction: 90, firstCourse: -1164 }),
  );

  it('laps as far as there is roof on its own side', () => {
    const last = sound.seams.sideLaps.find(({ betweenBands, to }) => betweenBands && to[0] === 19_584);
    expect(last?.length).toBeCloseTo(126, 0);
    expect(held(sound)).toEqual([]);
  });
});

describe('edges of sheets', () => {
  const fleece = layoutSpec({ lap: { endLap: 0 }, trade: trade({ strip: 150 }) });

  it('the selvedge on the wrong side', () => {
    const given = laid(roofOf({}), fleece);
    expect(held(given)).toEqual([]);
    const turned = given.sheets.map((sheet) => ({ ...sheet, selvedge: 'low' as const }));
    expect(held({ ...given, sheets: turned })).toEqual(['wrong-selvedge']);
  });

  const ripped = layoutSpec({
    roll: LONG,
    closing: { kind: 'rip', lanes: 2 },
    trade: trade({ reinforced: true }),
  });

  it('a cut edge on top while the factory edge lies under', () => {
    const given = laid(roofOf({}), ripped);
    expect(given.sheets.some(({ longEdges }) => longEdges.includes('cut'))).toBe(true);
    expect(held(given)).toEqual([]);
    const turned = given.sheets.map((sheet) => ({
      ...sheet,
      longEdges: [sheet.longEdges[1], sheet.longEdges[0]] as const,
    }));
    expect(held({ ...given, sheets: turned })).toEqual(['cut-edge-shows', 'cut-edge-unsealed']);
    const claimed = given.sheets.map((sheet) => ({ ...sheet, longEdges: ['factory', 'factory'] as const }));
    expect(held({ ...given, sheets: claimed })).toContain('false-edge');
  });

  it('cut edges that nobody counted', () => {
    const given = laid(roofOf({}), layoutSpec({ trade: trade({ reinforced: true }) }));
    expect(given.seams.cutEdge).toBeCloseTo(
      given.seams.endLaps.reduce((sum, lap) => sum + lap.length, 0),
      6,
    );
    expect(held(given)).toEqual([]);
    expect(held({ ...given, seams: { ...given.seams, cutEdge: 0 } })).toEqual(['cut-edge-unsealed']);
  });
});

describe('steel deck', () => {
  const deck = { kind: 'steel', flutes: 90, pitch: 200, flange: 120, rib: [0, 0] } as const;
  const spec = layoutSpec({ direction: 'auto', roll: LONG, trade: trade({ inLap: true }) });

  it('courses run across the flutes by themselves', () => {
    const given = laid(roofOf({ deck }), spec);
    expect(given.direction).toBe(0);
    expect(held(given)).toEqual([]);
  });

  it('flutes that were not given are a warning', () => {
    expect(held(laid(roofOf({ deck: { ...deck, flutes: null } }), spec))).toEqual(['flutes-not-given']);
  });

  it('rows along the flutes stand on a flange when laid; off it they are caught', () => {
    const along = laid(roofOf({ deck: { ...deck, flutes: 0, pitch: 50, flange: 30 } }), {
      ...spec,
      direction: 0,
    });
    expect(held(along)).toEqual([]);
    const moved = along.rows.map((row) => ({
      ...row,
      from: [row.from[0], row.from[1] + 20] as const,
      to: [row.to[0], row.to[1] + 20] as const,
    }));
    expect(held({ ...along, rows: moved })).toEqual(['row-off-flange']);
    const unknown = { ...along, roof: roofOf({ deck: { ...deck, flutes: 0, pitch: null } }) };
    expect(held(unknown)).toEqual(['row-along-flutes']);
  });
});
