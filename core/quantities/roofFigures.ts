// Figures of the roof itself and of the membrane on it.
import { boughtArea, cutArea, lappedArea, rollsByProduct } from './laps';
import { m, m2, make, say, type Measured, type MeasureRules } from './make';
import type { Quantity } from './types';

export function roofFigures({ roof }: Measured): Quantity[] {
  const outline = roof.area + roof.openings.reduce((sum, o) => sum + o.area, 0);
  return [
    make(
      'roof.area',
      'Roof area',
      m2(roof.area),
      'm2',
      roof.openings.length === 0
        ? 'the outline, no openings'
        : `${say(m2(outline))} m² within the outline − ${say(m2(outline - roof.area))} m² in ${roof.openings.length} opening(s)`,
      [roof.id, ...roof.openings.map((o) => o.id)],
    ),
    make(
      'roof.perimeter',
      'Outline',
      m(roof.perimeter),
      'm',
      `sum of ${roof.edges.filter((e) => e.ring === 0).length} sides`,
      roof.edges.filter((e) => e.ring === 0).map((e) => e.id),
    ),
    make(
      'roof.edges',
      'Edges, with openings',
      m(roof.edges.reduce((sum, e) => sum + e.length, 0)),
      'm',
      `sum of ${roof.edges.length} sides`,
      roof.edges.map((e) => e.id),
    ),
  ];
}

/** Bought = roof + laps + trimmed + offcut. */
export function membraneFigures(
  { roof, layout, seams, reused, cutPatches }: Measured,
  { assumed }: MeasureRules,
): Quantity[] {
  const { rolls, lowerBound, areaBound } = layout.cutList;
  const products = rollsByProduct(layout);
  const bought = boughtArea(layout);
  const sizes = products
    .map(({ roll, ids }) => `${ids.length} of ${say(m(roll.width))} × ${say(m(roll.length))} m`)
    .join(' + ');
  const cut = cutArea(layout.sheets);
  const lapped = lappedArea(layout, seams);
  const trimmed = cut - lapped - roof.area;
  const offcut = bought - cut;
  const patches = cutPatches.flatMap(({ from, ...patch }) => (from ? { ...patch, ...from } : []));
  const strips =
    reused.reduce((sum, strip) => sum + strip.length * strip.height, 0) +
    patches.reduce((sum, { length, width }) => sum + length * width, 0);
  const system = assumed(
    'system.roll',
    'system.sideLap',
    'system.endLap',
    'system.endLapStagger',
    'system.minPiece',
  );
  const rollIds = rolls.map((r) => r.id);
  return [
    make(
      'rolls.field',
      'Rolls',
      rolls.length,
      'rolls',
      `${layout.sheets.length} sheets cut from ${sizes}; at least ${lowerBound} for these courses, ${areaBound} for any layout`,
      rollIds,
      system,
    ),
    ...products.map(({ roll, ids }) =>
      make(
        `rolls.${roll.id}`,
        `Rolls of ${roll.id}`,
        ids.length,
        'rolls',
        `cut list, rolls ${say(m(roll.width))} m wide`,
        ids,
        system,
      ),
    ),
    make(
      'rolls.bound',
      'Least possible rolls',
      lowerBound,
      'rolls',
      'the lengths of all runs and of the laps that cannot be spared, over the length of a roll, rounded up',
      [],
      system,
    ),
    make(
      'sheets.count',
      'Sheets',
      layout.sheets.length,
      'pieces',
      `${layout.runs.length} runs in ${layout.courses.length} courses`,
      layout.sheets.map((s) => s.id),
    ),
    make('area.bought', 'Membrane bought', m2(bought), 'm2', `rolls: ${sizes}`, rollIds, system),
    make(
      'area.cut',
      'Membrane cut',
      m2(cut),
      'm2',
      `sum of ${layout.sheets.length} sheets`,
      layout.sheets.map((s) => s.id),
      system,
    ),
    make(
      'area.lap',
      'Laps take',
      m2(lapped),
      'm2',
      'membrane cut − what the sheets cover together',
      [],
      system,
    ),
    make(
      'area.trimmed',
      'Trimmed off',
      m2(trimmed),
      'm2',
      `${say(m2(cut))} m² cut − ${say(m2(lapped))} m² laps − ${say(m2(roof.area))} m² roof: beyond the edges and in the openings`,
      [],
      system,
    ),
    make(
      'area.offcut',
      'Offcuts',
      m2(offcut),
      'm2',
      `${say(m2(bought))} m² bought − ${say(m2(cut))} m² cut`,
      rollIds,
      system,
    ),
    make(
      'area.reused',
      'Offcuts into flashings and patches',
      m2(strips),
      'm2',
      `${reused.length} strips, each its length × its height${patches.length > 0 ? `, and ${patches.length} patches, each its length × its width` : ''}`,
      [...new Set([...reused, ...patches].map(({ roll }) => roll))],
      system,
    ),
    make(
      'waste.percent',
      'Waste',
      (100 * (offcut + trimmed - strips)) / bought,
      '%',
      `(${say(m2(offcut))} m² offcuts − ${say(m2(strips))} m² of them into flashings + ${say(m2(trimmed))} m² trimmed off) ÷ ${say(m2(bought))} m² bought`,
      [],
      system,
    ),
  ];
}
