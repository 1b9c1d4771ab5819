// The school of boatbuilding at Gannet Slip, invented for this program: a main roof in an L round a courtyard, and
// a canopy. Millimetres from the crossing of grid lines 1 and A. The drawings and the jobs are made from this.
import type { Place } from './ink';
import type { PlanOpening, PlanRoof } from './plan';

/** Depth of the east wing: revision B moves its north side out by two metres. */
const WING_DEPTH = { A: 28_000, B: 30_000 } as const;

export type Revision = keyof typeof WING_DEPTH;

export function mainRoof(revision: Revision): PlanRoof {
  const wing = WING_DEPTH[revision];
  return {
    name: 'Main roof',
    level: '+7.850',
    outline: [
      [0, 0],
      [60_000, 0],
      [60_000, wing],
      [38_000, wing],
      [38_000, 46_000],
      [0, 46_000],
    ],
    edges: [
      { kind: 'gutter', upstand: 0, allowance: 75 },
      { kind: 'parapet', upstand: 450, allowance: 0 },
      { kind: 'parapet', upstand: 450, allowance: 0 },
      { kind: 'eave', upstand: 0, allowance: 75 },
      { kind: 'parapet', upstand: 450, allowance: 0 },
      { kind: 'parapet', upstand: 450, allowance: 0 },
    ],
    openings: [
      opening('CY', 'Courtyard', 'courtyard', [12_000, 12_000], 12_000, 8_000, 450),
      opening('RL1', 'Rooflight 1', 'skylight', [42_000, 8_000], 1_500, 3_000, 200),
      opening('RL2', 'Rooflight 2', 'skylight', [47_000, 8_000], 1_500, 3_000, 200),
      opening('RL3', 'Rooflight 3', 'skylight', [52_000, 8_000], 1_500, 3_000, 200),
      ...(revision === 'B'
        ? [opening('RL4', 'Rooflight 4', 'skylight', [47_000, 18_000], 1_500, 3_000, 200)]
        : []),
      opening('H1', 'Roof hatch', 'hatch', [32_000, 38_000], 900, 1_200, 300),
      opening('P1', 'Plant curb 1', 'curb', [30_000, 22_500], 4_000, 2_500, 300),
      opening('P2', 'Plant curb 2', 'curb', [6_000, 33_500], 3_000, 2_000, 300),
    ],
    fittings: [
      { mark: 'D1', kind: 'drain', at: [10_500, 20_600], size: 160 },
      { mark: 'D2', kind: 'drain', at: [25_500, 20_600], size: 160 },
      { mark: 'SC1', kind: 'scupper', at: [0, 1_500], size: 300 },
      { mark: 'SC2', kind: 'scupper', at: [60_000, 1_500], size: 300 },
      { mark: 'V1', kind: 'pipe', at: [5_000, 8_400], size: 110 },
      { mark: 'V2', kind: 'pipe', at: [28_500, 5_200], size: 110 },
      { mark: 'V3', kind: 'pipe', at: [36_800, 15_300], size: 160 },
      { mark: 'V4', kind: 'pipe', at: [16_500, 31_000], size: 110 },
      { mark: 'V5', kind: 'pipe', at: [26_000, 41_200], size: 160 },
      { mark: 'V6', kind: 'pipe', at: [56_500, 21_000], size: 110 },
      { mark: 'PP1', kind: 'post', at: [35_600, 21_000], size: 90 },
      { mark: 'PP2', kind: 'post', at: [35_600, 26_500], size: 90 },
      { mark: 'AN1', kind: 'anchor', at: [3_000, 42_800], size: 60 },
      { mark: 'AN2', kind: 'anchor', at: [20_000, 43_000], size: 60 },
      { mark: 'AN3', kind: 'anchor', at: [44_000, 24_600], size: 60 },
      { mark: 'AN4', kind: 'anchor', at: [57_200, 24_600], size: 60 },
    ],
    fall: { downhill: 270, ratio: 1 / 80, text: 'FALL 1:80' },
    arrows: [
      [
        [5_000, 30_800],
        [5_000, 23_500],
      ],
      [
        [22_500, 38_000],
        [22_500, 30_700],
      ],
      [
        [33_800, 9_800],
        [33_800, 2_500],
      ],
      [
        [55_500, 17_400],
        [55_500, 10_100],
      ],
      [
        [8_300, 9_400],
        [8_300, 2_100],
      ],
    ],
    saddles: [
      [
        [12_000, 20_000],
        [18_000, 22_400],
        [24_000, 20_000],
      ],
      [
        [30_000, 25_000],
        [32_000, 25_900],
        [34_000, 25_000],
      ],
    ],
    outlets: [6_000, 18_000, 31_000, 43_500, 54_500],
  };
}

export function canopyRoof(revision: Revision): PlanRoof {
  const low = WING_DEPTH[revision] + 300;
  const high = low + 6_000;
  return {
    name: 'Canopy',
    level: '+3.600',
    outline: [
      [42_000, low],
      [56_000, low],
      [56_000, high],
      [42_000, high],
    ],
    edges: [
      { kind: 'wall', upstand: 200, allowance: 0 },
      { kind: 'eave', upstand: 0, allowance: 75 },
      { kind: 'gutter', upstand: 0, allowance: 75 },
      { kind: 'eave', upstand: 0, allowance: 75 },
    ],
    openings: [],
    fittings: [
      { mark: 'PP3', kind: 'post', at: [45_500, low + 3_000], size: 90 },
      { mark: 'PP4', kind: 'post', at: [52_500, low + 3_000], size: 90 },
    ],
    fall: { downhill: 90, ratio: 1 / 60, text: 'FALL 1:60' },
    arrows: [
      [
        [50_600, low + 1_100],
        [50_600, low + 4_900],
      ],
    ],
    saddles: [],
    outlets: [],
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
  return {
    mark,
    name,
    kind,
    upstand,
    ring: [
      [x, y],
      [x + wide, y],
      [x + wide, y + deep],
      [x, y + deep],
    ],
  };
}
