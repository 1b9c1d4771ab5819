// Counted parts: fasteners, flashings, corners, boots.
import { joinAssumed } from './assumptions';
import { m, m2, make, say, type Measured, type MeasureRules } from './make';
import type { Quantity } from './types';

export function partFigures(
  { fastening, fastener, details, roof, layout, seams, adhered, reused, cutPatches }: Measured,
  { rates, assumed }: MeasureRules,
): Quantity[] {
  const lap = fastening.rows.filter((row) => row.where === 'lap');
  const edge = fastening.rows.filter((row) => row.where === 'edge');
  const count = (rows: typeof lap) => rows.reduce((sum, row) => sum + row.count, 0);
  const lanes = (height: number) => Math.max(1, Math.floor(rates.flashingRoll.width / height));
  const flashingMetres = details.flashings.reduce((sum, f) => sum + f.length, 0);
  const covered = (edge: string) =>
    reused.filter((strip) => strip.edge === edge).reduce((sum, strip) => sum + strip.covers, 0);
  const flashingRollMetres = details.flashings.reduce(
    (sum, f) => sum + Math.max(0, f.length - covered(f.edge)) / lanes(f.height),
    0,
  );
  const { strip } = layout.spec.trade;
  const sum = (list: readonly number[]) => list.reduce((total, value) => total + value, 0);
  const stripMetres = strip === null ? 0 : sum(seams.endLaps.map((lap) => lap.length)) / lanes(strip);
  const bought = cutPatches.filter(({ from }) => from === null);
  const patchMetres = sum(bought.map(({ length, width }) => length / lanes(width)));
  const reusedMetres = reused.reduce((sum, strip) => sum + strip.covers, 0);
  const kinds = (...wanted: string[]) => details.boots.filter((boot) => wanted.includes(boot.kind));
  const pieces = (key: string, label: string, list: readonly { readonly id: string }[], formula: string) =>
    make(
      key,
      label,
      list.length,
      'pieces',
      formula,
      list.map((item) => item.id),
    );
  const spacing = assumed('system.fastenerSpacing');
  return [
    make(
      'fasteners.lap',
      'Fasteners in laps',
      count(lap),
      'pieces',
      `${lap.length} rows, each its length over the spacing, rounded up, and one`,
      lap.map((r) => r.id),
      spacing,
    ),
    make(
      'fasteners.edge',
      'Fasteners at edges',
      count(edge),
      'pieces',
      `${edge.length} edges at ${rates.edgeFastenerSpacing} mm, rounded up, and one each`,
      edge.map((r) => r.id),
      assumed('rates.edgeFastenerSpacing'),
    ),
    make(
      'fasteners.count',
      'Fasteners and plates',
      fastening.count,
      'pieces',
      `${count(lap)} in laps + ${count(edge)} at edges`,
      fastening.rows.map((r) => r.id),
      spacing,
    ),
    ...(['perimeter', 'corner'] as const).flatMap((zone) => {
      const rows = lap.filter((row) => row.zone === zone);
      if (rows.length === 0) return [];
      return make(
        `fasteners.${zone}`,
        `Of these in the ${zone}`,
        count(rows),
        'pieces',
        `${rows.length} stretches of rows in the zone that the engineer gave`,
        rows.map((r) => r.id),
      );
    }),
    ...(fastener.length === null || fastening.count === 0
      ? []
      : [
          make(
            `fasteners.length.${fastener.length}`,
            `Fasteners of ${fastener.length} mm`,
            fastening.count,
            'pieces',
            fastener.formula,
            fastening.rows.map((r) => r.id),
            joinAssumed(spacing, assumed('rates.fastenerLengths')),
          ),
        ]),
    make(
      'flashing.length',
      'Flashing',
      m(flashingMetres),
      'm',
      `${details.flashings.length} edges that stand up`,
      details.flashings.map((f) => f.edge),
    ),
    make(
      'flashing.reused',
      'Flashing from offcuts',
      m(reusedMetres),
      'm',
      `${reused.length} strips out of the offcuts of ${new Set(reused.map((strip) => strip.roll)).size} rolls`,
      reused.map((strip) => strip.edge),
      assumed('system.flashing'),
    ),
    make(
      'flashing.roll',
      'Flashing roll',
      m(flashingRollMetres + stripMetres + patchMetres),
      'm',
      `each flashing's length that offcuts do not cover${stripMetres > 0 ? ', strips over butted ends' : ''}${patchMetres > 0 ? `, ${bought.length} target sheets and strips over slits that none holds` : ''}, divided by the lanes that its height leaves on a roll ${say(m(rates.flashingRoll.width))} m wide`,
      details.flashings.map((f) => f.edge),
      assumed('rates.flashingRoll'),
    ),
    pieces(
      'corners.inside',
      'Inside corners',
      details.corners.filter((c) => c.kind === 'inside'),
      'where two upright edges meet inwards',
    ),
    pieces(
      'corners.outside',
      'Outside corners',
      details.corners.filter((c) => c.kind === 'outside'),
      'where two upright edges meet outwards',
    ),
    pieces('boots.pipe', 'Pipe boots', kinds('pipe', 'post', 'anchor'), 'one for each pipe, post and anchor'),
    pieces('boots.drain', 'Drain inserts', kinds('drain', 'scupper'), 'one for each drain and scupper'),
    ...(adhered
      ? [
          make(
            'adhesive',
            'Bonding adhesive',
            m2(roof.area) / rates.adhesiveCoverage,
            'litres',
            `${say(m2(roof.area))} m² ÷ ${rates.adhesiveCoverage} m² a litre`,
            [roof.id],
            assumed('rates.adhesiveCoverage'),
          ),
        ]
      : []),
  ];
}
