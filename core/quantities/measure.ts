// In: one roof's results, rates and what a person confirmed. Out: its figures, each with unit, formula in words and
// the ids it came from; and the figures of the whole job as sums of them. Promise: the only maker of quantities;
// sums of parts are wholes exactly, and bought = roof + laps + trimmed + offcut.
import type { Details } from '../details/types';
import type { Fastening } from '../fastening/types';
import type { Rates } from '../rates/schema';
import type { Roof } from '../roof/types';
import type { EndLap, Seams, SideLap } from '../seams/types';
import type { Layout, RollProduct } from '../sheets/types';
import { formatNumber } from '../units/numbers';
import type { WeldPlan, WeldRun } from '../welding/types';
import { cutArea, lappedArea } from './laps';
import type { Quantities, Quantity, QuantityUnit } from './types';

export interface Measured {
  readonly roof: Roof;
  readonly layout: Layout;
  readonly seams: Seams;
  readonly details: Details;
  readonly fastening: Fastening;
  /** The runs of this roof only. */
  readonly welds: readonly WeldRun[];
  readonly roll: RollProduct;
  readonly adhered: boolean;
}

export interface MeasureRules {
  readonly rates: Rates;
  /** Says which of some dotted paths are still shipped values, or null where all were set. */
  readonly assumed: (...paths: string[]) => string | null;
}

/** How many test strips a day: at the start and after the long break (common practice, no source). */
export const STRIPS_PER_DAY = 2;

export function measureRoof(measured: Measured, rules: MeasureRules): Quantities {
  return [
    ...areas(measured),
    ...membrane(measured, rules),
    ...welds(measured),
    ...parts(measured, rules),
    ...hours(measured, rules),
  ];
}

type Make = (
  key: string,
  label: string,
  value: number,
  unit: QuantityUnit,
  formula: string,
  from?: readonly string[],
  assumed?: string | null,
) => Quantity;

const make: Make = (key, label, value, unit, formula, from = [], assumed = null) => ({
  key,
  label,
  value,
  unit,
  formula,
  from,
  assumed,
});

const m2 = (mm2: number) => mm2 / 1e6;
const m = (mm: number) => mm / 1000;
const say = (value: number, decimals = 2) => formatNumber(value, decimals);

function areas({ roof }: Measured): Quantity[] {
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

function membrane({ roof, layout, roll }: Measured, { assumed }: MeasureRules): Quantity[] {
  const { rolls, lowerBound, areaBound } = layout.cutList;
  const bought = rolls.length * roll.width * roll.length;
  const cut = cutArea(layout.sheets);
  const lapped = lappedArea(layout);
  const trimmed = cut - lapped - roof.area;
  const offcut = bought - cut;
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
      `${layout.sheets.length} sheets cut from rolls of ${say(m(roll.width))} × ${say(m(roll.length))} m; at least ${lowerBound} for these courses, ${areaBound} for any layout`,
      rollIds,
      system,
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
    make(
      'area.bought',
      'Membrane bought',
      m2(bought),
      'm2',
      `${rolls.length} rolls × ${say(m(roll.width))} m × ${say(m(roll.length))} m`,
      rollIds,
      system,
    ),
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
      'waste.percent',
      'Waste',
      (100 * (offcut + trimmed)) / bought,
      '%',
      `(${say(m2(offcut))} m² offcuts + ${say(m2(trimmed))} m² trimmed off) ÷ ${say(m2(bought))} m² bought`,
      [],
      system,
    ),
  ];
}

function welds({ seams, welds: runs }: Measured): Quantity[] {
  const sum = (list: readonly { readonly length: number }[]) =>
    m(list.reduce((total, lap) => total + lap.length, 0));
  const ids = (list: readonly (SideLap | EndLap)[]) => list.map((lap) => lap.id);
  const of = (kinds: readonly WeldRun['kind'][]) => runs.filter((run) => kinds.includes(run.kind));
  const by = (method: WeldRun['method']) => runs.filter((run) => run.method === method);
  const flashing = of(['flashing']);
  const detail = of(['corner', 'boot', 't-joint']);
  return [
    make(
      'weld.side',
      'Side laps',
      sum(seams.sideLaps),
      'm',
      `${seams.sideLaps.length} side laps, each as long as the roof under it`,
      ids(seams.sideLaps),
    ),
    make(
      'weld.end',
      'End laps',
      sum(seams.endLaps),
      'm',
      `${seams.endLaps.length} end laps across their sheets, clipped to the roof`,
      ids(seams.endLaps),
    ),
    make(
      'count.endLaps',
      'End laps',
      seams.endLaps.length,
      'pieces',
      'one for each joint of two pieces in a run',
      ids(seams.endLaps),
    ),
    make(
      'count.tJoints',
      'T-joints',
      seams.tJoints.length,
      'pieces',
      'where an end lap meets a side lap',
      seams.tJoints.map((t) => t.id),
    ),
    make(
      'weld.upstand',
      'Upstand welds',
      sum(flashing),
      'm',
      `${flashing.length} flashings: foot, and laps at corners and between sheets`,
      flashing.map((run) => run.seam),
    ),
    make(
      'weld.detail',
      'Detail welds',
      sum(detail),
      'm',
      `${detail.length} corners, boots and T-joint patches`,
      detail.map((run) => run.seam),
    ),
    make(
      'weld.machine',
      'Welded by machine',
      sum(by('machine')),
      'm',
      `${by('machine').length} weld runs on flat laps of at least 1.5 m`,
      by('machine').map((run) => run.seam),
    ),
    make(
      'weld.hand',
      'Welded by hand',
      sum(by('hand')),
      'm',
      `${by('hand').length} weld runs: short laps, upstands and details`,
      by('hand').map((run) => run.seam),
    ),
    make(
      'weld.total',
      'Weld',
      sum(runs),
      'm',
      `${say(sum(by('machine')))} m by machine + ${say(sum(by('hand')))} m by hand`,
      runs.map((run) => run.seam),
    ),
  ];
}

function parts(
  { fastening, details, roof, adhered }: Measured,
  { rates, assumed }: MeasureRules,
): Quantity[] {
  const lap = fastening.rows.filter((row) => row.where === 'lap');
  const edge = fastening.rows.filter((row) => row.where === 'edge');
  const count = (rows: typeof lap) => rows.reduce((sum, row) => sum + row.count, 0);
  const lanes = (height: number) => Math.max(1, Math.floor(rates.flashingRoll.width / height));
  const flashingMetres = details.flashings.reduce((sum, f) => sum + f.length, 0);
  const flashingRollMetres = details.flashings.reduce((sum, f) => sum + f.length / lanes(f.height), 0);
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
    make(
      'flashing.length',
      'Flashing',
      m(flashingMetres),
      'm',
      `${details.flashings.length} edges that stand up`,
      details.flashings.map((f) => f.edge),
    ),
    make(
      'flashing.roll',
      'Flashing roll',
      m(flashingRollMetres),
      'm',
      `each flashing's length, divided by the lanes that its height leaves on a roll ${say(m(rates.flashingRoll.width))} m wide`,
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

function hours(
  { roof, fastening, details, seams, welds: runs }: Measured,
  { rates, assumed }: MeasureRules,
): Quantity[] {
  const { speeds, labour } = rates;
  const timed = (method: WeldRun['method']) => {
    const list = runs.filter((run) => run.method === method);
    const weld = list.reduce((sum, run) => sum + run.weldMinutes, 0) / 60;
    const beside = list.reduce((sum, run) => sum + run.setupMinutes + run.walkMinutes, 0) / 60;
    return { list, weld, beside, total: weld / speeds.efficiency + beside };
  };
  const machine = timed('machine');
  const hand = timed('hand');
  const weldAssumed = assumed(
    'rates.speeds.machine',
    'rates.speeds.handLap',
    'rates.speeds.handDetail',
    'rates.speeds.efficiency',
    'rates.speeds.setupPerSeam',
    'rates.speeds.walking',
  );
  const weldHours = (key: string, label: string, time: typeof machine) =>
    make(
      key,
      label,
      time.total,
      'h',
      `${say(time.weld)} h of welding ÷ ${speeds.efficiency} efficiency + ${say(time.beside)} h of setting up and walking back`,
      time.list.map((run) => run.seam),
      weldAssumed,
    );
  const laying = m2(roof.area) * labour.layingPerM2;
  const fasten = (fastening.count * labour.perFastener) / 60;
  const flash = details.flashings.reduce((sum, f) => sum + m(f.length), 0) * labour.flashingPerM;
  const detail =
    (details.corners.length * labour.perCorner +
      details.boots.length * labour.perBoot +
      seams.tJoints.length * speeds.perTJoint) /
    60;
  const welding = (machine.total + hand.total) * labour.perWelder;
  const onRoof = laying + fasten + flash + detail + welding;
  const days = Math.ceil(onRoof / (labour.crew * labour.dayHours));
  const strips = (days * STRIPS_PER_DAY * speeds.perTestStrip) / 60;
  return [
    weldHours('hours.machine', 'Machine welding', machine),
    weldHours('hours.hand', 'Hand welding', hand),
    make(
      'hours.laying',
      'Laying',
      laying,
      'h',
      `${say(m2(roof.area))} m² × ${labour.layingPerM2} h a m²`,
      [roof.id],
      assumed('rates.labour.layingPerM2'),
    ),
    make(
      'hours.fastening',
      'Fastening',
      fasten,
      'h',
      `${fastening.count} fasteners × ${labour.perFastener} min`,
      fastening.rows.map((r) => r.id),
      assumed('rates.labour.perFastener'),
    ),
    make(
      'hours.flashing',
      'Setting flashings',
      flash,
      'h',
      `${say(flash / (labour.flashingPerM || 1))} m × ${labour.flashingPerM} h a metre`,
      details.flashings.map((f) => f.edge),
      assumed('rates.labour.flashingPerM'),
    ),
    make(
      'hours.details',
      'Corners, boots, T-joints',
      detail,
      'h',
      `${details.corners.length} × ${labour.perCorner} + ${details.boots.length} × ${labour.perBoot} + ${seams.tJoints.length} × ${speeds.perTJoint} min`,
      [...details.corners, ...details.boots, ...seams.tJoints].map((d) => d.id),
      assumed('rates.labour.perCorner', 'rates.labour.perBoot', 'rates.speeds.perTJoint'),
    ),
    make(
      'hours.strips',
      'Test strips',
      strips,
      'h',
      `${days} day(s) × ${STRIPS_PER_DAY} strips × ${speeds.perTestStrip} min`,
      [],
      assumed('rates.speeds.perTestStrip'),
    ),
    make(
      'hours.total',
      'Person-hours',
      onRoof + strips,
      'h',
      `person-hours: ${say(machine.total + hand.total)} h of welding × ${labour.perWelder} people + ${say(laying + fasten + flash + detail + strips)} h of the rest`,
      [],
      weldAssumed,
    ),
    make(
      'days',
      'Working days',
      days,
      'pieces',
      `${say(onRoof)} h ÷ (${labour.crew} people × ${labour.dayHours} h), rounded up`,
      [],
      assumed('rates.labour.crew', 'rates.labour.dayHours'),
    ),
  ];
}

/** The job's figures: each key summed over the roofs. Percentages and days are taken anew from the sums. */
export function measureJob(
  byRoof: readonly { readonly letter: string; readonly quantities: Quantities }[],
  plan: WeldPlan,
  { crew, dayHours }: Rates['labour'],
): Quantities {
  const shift = crew * dayHours;
  const [first] = byRoof;
  if (!first) return [];
  const many = byRoof.length > 1;
  const keys = [...new Set(byRoof.flatMap((roof) => roof.quantities.map((q) => q.key)))];
  const sums = keys.map((key): Quantity => {
    const found = byRoof.flatMap(({ letter, quantities }) =>
      quantities.filter((q) => q.key === key).map((q) => ({ letter, q })),
    );
    const { q } = found[0] as { q: Quantity };
    if (!many) return q;
    return {
      ...q,
      value: found.reduce((sum, f) => sum + f.q.value, 0),
      formula: found
        .map((f) => `${f.letter}: ${say(f.q.value, q.unit === 'pieces' || q.unit === 'rolls' ? 0 : 2)}`)
        .join(' + '),
      from: found.flatMap((f) => f.q.from),
      assumed: found.map((f) => f.q.assumed).find((a) => a !== null) ?? null,
    };
  });
  const value = (key: string) => sums.find((q) => q.key === key)?.value ?? 0;
  const waste = value('area.offcut') + value('area.trimmed');
  const anew: Readonly<Record<string, Pick<Quantity, 'value' | 'formula'>>> = {
    'waste.percent': {
      value: (100 * waste) / value('area.bought'),
      formula: `${say(waste)} m² offcuts and trimmings ÷ ${say(value('area.bought'))} m² bought`,
    },
    days: {
      value: Math.ceil(value('hours.total') / shift),
      formula: `${say(value('hours.total'))} person-hours ÷ ${say(shift)} a day, rounded up`,
    },
  };
  return [
    ...sums.map((q) => (many && anew[q.key] ? { ...q, ...anew[q.key] } : q)),
    make(
      'weld.runs',
      'Weld runs',
      plan.runs.length,
      'pieces',
      'in the order of laying',
      plan.runs.map((run) => run.id),
    ),
  ];
}
