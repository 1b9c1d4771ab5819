// How each demo sheet is set out: paper, grid, dimension strings, notes, revisions.
import { canopyRoof, mainRoof } from './school';
import type { Revision } from './school';
import type { PlanSheet } from './plan';

export function schoolSheet(revision: Revision, scaleNote = '1:100 @ A1'): PlanSheet {
  const wing = revision === 'A' ? 28_000 : 30_000;
  return {
    paper: [841, 594],
    ratio: 100,
    origin: [70, 76],
    display: 'metric',
    project: ['Gannet Slip School of Boatbuilding', 'Workshop and teaching block', 'An invented building'],
    practice: ['Tholepin & Marsh', 'Architects (an invented practice)', '4 Staithe Lane, Gannet Slip'],
    title: 'Roof plan',
    number: 'GS-A-120',
    revision,
    date: revision === 'A' ? '2026-03-16' : '2026-05-04',
    scaleNote,
    scaleBar: { step: 20, labels: ['0', '2', '4', '6', '8', '10 m'] },
    roofs: [mainRoof(revision), canopyRoof(revision)],
    gridX: [
      ['1', 0],
      ['2', 12_000],
      ['3', 24_000],
      ['4', 38_000],
      ['5', 49_000],
      ['6', 60_000],
    ],
    gridY: [
      ['A', 0],
      ['B', 12_000],
      ['C', 20_000],
      ['D', wing],
      ['E', 46_000],
    ],
    gridReach: { low: [-3_900, -4_000], high: [61_400, 49_900] },
    strings: [
      { along: 'x', at: -1_800, from: -100, stops: [0, 12_000, 24_000, 38_000, 49_000, 60_000] },
      { along: 'x', at: -3_000, from: -1_800, stops: [0, 60_000] },
      { along: 'x', at: 47_700, from: 46_300, stops: [0, 12_000, 24_000, 38_000, 60_000] },
      { along: 'x', at: wing + 7_200, from: wing + 6_300, stops: [42_000, 56_000] },
      { along: 'y', at: -1_700, from: -300, stops: [0, 12_000, 20_000, wing, 46_000] },
      { along: 'y', at: -2_900, from: -1_700, stops: [0, 46_000] },
      { along: 'y', at: 61_900, from: 60_300, stops: [0, wing] },
      { along: 'y', at: 40_300, from: 38_100, stops: [wing, 46_000] },
      { along: 'y', at: 57_600, from: 56_100, stops: [wing + 300, wing + 6_300] },
      { along: 'x', at: 12_000, from: 11_000, stops: [42_000, 43_500, 47_000, 48_500, 52_000, 53_500] },
      { along: 'y', at: 54_400, from: 53_500, stops: [8_000, 11_000] },
    ],
    notes: [
      'Dimensions in millimetres, to the edge of the roof: the inner face of parapets, the outer line of eaves and gutters. Written dimensions govern.',
      'Single-ply membrane, mechanically fastened in the laps, over insulation laid to fall 1:80. Colour light grey.',
      'Upstands: parapets and courtyard 450 high, rooflights 200, plant curbs and hatch 300, canopy against wall 200.',
      'Saddles shown dashed throw water round the courtyard and plant curb 1.',
      'All openings and edges are fall hazards until guarded. Follow the safety plan of the site and local law.',
      'This sheet is invented to try a program with. Nothing on it is to be built.',
    ],
    revisions: [
      ['A', '2026-03-16', 'First issue for tender'],
      ...(revision === 'B'
        ? ([['B', '2026-05-04', 'East wing 2 m deeper; rooflight RL4 added']] as const)
        : []),
    ],
    clouds:
      revision === 'B'
        ? [
            [
              [37_300, 27_200],
              [60_900, 31_200],
            ],
            [
              [46_000, 17_000],
              [49_600, 22_000],
            ],
          ]
        : [],
    northAt: [615, 512],
    titleAt: [82, 19],
    parapet: 300,
    upstandNote: '450',
    overhangNote: '75 mm',
  };
}
