// Two sections through the roof's edges, not to scale: what turns up, what hangs over.
import { PENS, plus } from './ink';
import type { Paper, Place } from './ink';
import type { PlanSheet } from './plan';
import { hatchBox } from './symbols';

const MEMBRANE = { width: 0.6 } as const;

export function drawEdgeSections(paper: Paper, sheet: PlanSheet, at: Place): void {
  paper.text('SHEET', at, 'EDGES IN SECTION, NOT TO SCALE', { size: 3.6, weight: 'bold' });
  paper.line('SHEET', plus(at, [0, -1.8]), plus(at, [118, -1.8]), PENS.rule);
  drawParapet(paper, plus(at, [4, -46]), sheet.upstandNote);
  drawGutter(paper, plus(at, [66, -46]), sheet.overhangNote);
}

/**  ┌──┐
 *   │░░│   membrane up the face
 *   │░░└──────────
 *   │░░ deck and insulation
 */
function drawParapet(paper: Paper, at: Place, upstand: string): void {
  paper.box('SHEET', at, plus(at, [9, 36]), PENS.fitting);
  hatchBox(paper, at, plus(at, [9, 36]), 1.6);
  paper.box('SHEET', plus(at, [9, 6]), plus(at, [46, 10]), PENS.fitting);
  paper.box('SHEET', plus(at, [9, 10]), plus(at, [46, 16]), PENS.dimension);
  for (let x = 10; x < 45; x += 4)
    paper.path('SHEET', [plus(at, [x, 10]), plus(at, [x + 2, 16]), plus(at, [x + 4, 10])], PENS.hatch);
  paper.path('SHEET', [plus(at, [46, 16.6]), plus(at, [9.6, 16.6])], MEMBRANE);
  paper.path('SHEET', [plus(at, [16, 17.4]), plus(at, [10.2, 17.4]), plus(at, [10.2, 35.4])], MEMBRANE);
  paper.path(
    'SHEET',
    [plus(at, [-1.4, 33]), plus(at, [-1.4, 37.4]), plus(at, [11.6, 37.4]), plus(at, [11.6, 33.6])],
    PENS.opening,
  );
  paper.line('SHEET', plus(at, [22, 16.6]), plus(at, [22, 36]), PENS.dimension);
  for (const y of [16.6, 36])
    paper.line('SHEET', plus(at, [20.9, y - 1.1]), plus(at, [23.1, y + 1.1]), { width: 0.4 });
  paper.text('SHEET', plus(at, [21, 26.4]), upstand, { size: 2.6, align: 'middle', angle: 90 });
  paper.text('SHEET', plus(at, [26, 28]), 'flashing up the', { size: 2.4 });
  paper.text('SHEET', plus(at, [26, 24.6]), 'face, under metal', { size: 2.4 });
  paper.text('SHEET', plus(at, [0, -5]), 'PARAPET', { size: 2.8, weight: 'bold' });
}

/** The field sheet runs over the edge and down into the trough. */
function drawGutter(paper: Paper, at: Place, overhang: string): void {
  paper.box('SHEET', plus(at, [14, 6]), plus(at, [50, 10]), PENS.fitting);
  paper.box('SHEET', plus(at, [14, 10]), plus(at, [50, 16]), PENS.dimension);
  for (let x = 15; x < 49; x += 4)
    paper.path('SHEET', [plus(at, [x, 10]), plus(at, [x + 2, 16]), plus(at, [x + 4, 10])], PENS.hatch);
  paper.path('SHEET', [plus(at, [50, 16.6]), plus(at, [13.2, 16.6]), plus(at, [13.2, 11.6])], MEMBRANE);
  paper.path(
    'SHEET',
    [plus(at, [12.4, 14]), plus(at, [12.4, 2]), plus(at, [1, 2]), plus(at, [1, 13]), plus(at, [3, 13])],
    PENS.opening,
  );
  paper.text('SHEET', plus(at, [17, 24]), 'field sheet over the', { size: 2.4 });
  paper.text('SHEET', plus(at, [17, 20.6]), `edge by ${overhang}, welded to metal`, { size: 2.4 });
  paper.text('SHEET', plus(at, [0, -5]), 'GUTTER', { size: 2.8, weight: 'bold' });
}
