// The harbor office at Pilot Row, invented: a small roof on a sheet in feet and inches.
import { MM_PER_FOOT, MM_PER_INCH } from '../../core/units/lengths';
import type { Place } from './ink';
import type { PlanOpening, PlanRoof, PlanSheet } from './plan';

const ft = (feet: number, inches = 0): number =>
  Math.round((feet * MM_PER_FOOT + inches * MM_PER_INCH) * 10) / 10;

function officeRoof(): PlanRoof {
  return {
    name: 'Office roof',
    level: `+14'-6"`,
    outline: [
      [0, 0],
      [ft(120), 0],
      [ft(120), ft(52)],
      [ft(88), ft(52)],
      [ft(88), ft(72)],
      [0, ft(72)],
    ],
    edges: [
      { kind: 'gutter', upstand: 0, allowance: ft(0, 3) },
      { kind: 'parapet', upstand: ft(1, 6), allowance: 0 },
      { kind: 'parapet', upstand: ft(1, 6), allowance: 0 },
      { kind: 'parapet', upstand: ft(1, 6), allowance: 0 },
      { kind: 'parapet', upstand: ft(1, 6), allowance: 0 },
      { kind: 'parapet', upstand: ft(1, 6), allowance: 0 },
    ],
    openings: [
      opening('SK1', 'Skylight 1', 'skylight', [ft(30), ft(24)], ft(4), ft(8), ft(0, 8)),
      opening('SK2', 'Skylight 2', 'skylight', [ft(52), ft(24)], ft(4), ft(8), ft(0, 8)),
      opening('RH1', 'Roof hatch', 'hatch', [ft(12), ft(60)], ft(2, 6), ft(3), ft(1)),
      opening('UC1', 'Unit curb 1', 'curb', [ft(96), ft(30)], ft(9), ft(6), ft(1, 2)),
      opening('UC2', 'Unit curb 2', 'curb', [ft(64), ft(56)], ft(9), ft(6), ft(1, 2)),
    ],
    fittings: [
      { mark: 'SC1', kind: 'scupper', at: [0, ft(5)], size: ft(1) },
      { mark: 'SC2', kind: 'scupper', at: [ft(120), ft(5)], size: ft(1) },
      { mark: 'V1', kind: 'pipe', at: [ft(18), ft(14)], size: ft(0, 4) },
      { mark: 'V2', kind: 'pipe', at: [ft(44), ft(46)], size: ft(0, 4) },
      { mark: 'V3', kind: 'pipe', at: [ft(80), ft(12)], size: ft(0, 6) },
      { mark: 'V4', kind: 'pipe', at: [ft(110), ft(44)], size: ft(0, 4) },
      { mark: 'PP1', kind: 'post', at: [ft(92), ft(24)], size: ft(0, 4) },
    ],
    fall: { downhill: 270, ratio: 1 / 48, text: 'FALL 1/4" PER FT' },
    arrows: [
      [
        [ft(24), ft(52)],
        [ft(24), ft(34)],
      ],
      [
        [ft(66), ft(26)],
        [ft(66), ft(8)],
      ],
      [
        [ft(104), ft(26)],
        [ft(104), ft(8)],
      ],
    ],
    saddles: [
      [
        [ft(96), ft(36)],
        [ft(100, 6), ft(38)],
        [ft(105), ft(36)],
      ],
      [
        [ft(64), ft(62)],
        [ft(68, 6), ft(64)],
        [ft(73), ft(62)],
      ],
    ],
    outlets: [ft(20), ft(60), ft(100)],
  };
}

export function officeSheet(): PlanSheet {
  return {
    paper: [36 * MM_PER_INCH, 24 * MM_PER_INCH],
    ratio: 96,
    origin: [176, 176],
    display: 'imperial',
    project: ['Pilot Row Harbor Office', 'Reroofing', 'An invented building'],
    practice: ['Cleat & Bollard', 'Architects (an invented practice)', '210 Pilot Row'],
    title: 'Roof plan',
    number: 'A-151',
    revision: '0',
    date: '2026-04-20',
    scaleNote: `1/8" = 1'-0"`,
    scaleBar: { step: ft(8) / 96, labels: ['0', "8'", "16'", "24'", "32'"] },
    roofs: [officeRoof()],
    gridX: [
      ['1', 0],
      ['2', ft(44)],
      ['3', ft(88)],
      ['4', ft(120)],
    ],
    gridY: [
      ['A', 0],
      ['B', ft(26)],
      ['C', ft(52)],
      ['D', ft(72)],
    ],
    gridReach: { low: [-ft(16), -ft(14)], high: [ft(126), ft(84)] },
    strings: [
      { along: 'x', at: -ft(6), from: -ft(1), stops: [0, ft(44), ft(88), ft(120)] },
      { along: 'x', at: -ft(10), from: -ft(6), stops: [0, ft(120)] },
      { along: 'x', at: ft(78), from: ft(73), stops: [0, ft(88), ft(120)] },
      { along: 'y', at: -ft(6), from: -ft(1), stops: [0, ft(26), ft(52), ft(72)] },
      { along: 'y', at: -ft(10), from: -ft(6), stops: [0, ft(72)] },
      { along: 'y', at: ft(126), from: ft(121), stops: [0, ft(52)] },
      { along: 'y', at: ft(93), from: ft(88, 6), stops: [ft(52), ft(72)] },
      { along: 'x', at: ft(36), from: ft(32), stops: [ft(30), ft(34), ft(52), ft(56)] },
      { along: 'y', at: ft(58, 6), from: ft(56), stops: [ft(24), ft(32)] },
      { along: 'x', at: ft(27), from: ft(30), stops: [ft(96), ft(105)] },
      { along: 'y', at: ft(108), from: ft(105), stops: [ft(30), ft(36)] },
    ],
    notes: [
      'Dimensions to the edge of the roof: the inner face of parapets, the outer line of the gutter edge. Written dimensions govern.',
      'Single-ply membrane, mechanically fastened in the laps, over insulation tapered 1/4" per foot. Color light gray.',
      `Upstands: parapets 1'-6", skylights 8", hatch 1'-0", unit curbs 1'-2".`,
      'Saddles shown dashed throw water round the unit curbs.',
      'All openings and edges are fall hazards until guarded. Follow the safety plan of the site and local law.',
      'This sheet is invented to try a program with. Nothing on it is to be built.',
    ],
    revisions: [['0', '2026-04-20', 'Issued for bid']],
    clouds: [],
    northAt: [640, 470],
    titleAt: [176, 88],
    parapet: ft(1),
    upstandNote: `1'-6"`,
    overhangNote: '3 in',
  };
}

function opening(
  mark: string,
  name: string,
  kind: PlanOpening['kind'],
  [x, y]: Place,
  wide: number,
  deep: number,
  upstand: number,
): PlanOpening {
  const [right, top] = [Math.round((x + wide) * 10) / 10, Math.round((y + deep) * 10) / 10];
  return {
    mark,
    name,
    kind,
    upstand,
    ring: [
      [x, y],
      [right, y],
      [right, top],
      [x, top],
    ],
  };
}
