// Joints of one run, against trying every length of every piece.
import { assert, integer, array, property, record } from 'fast-check';
import { describe, expect, it } from 'vitest';
import { placeJoints, type PieceWanted } from '../../../core/sheets/placeJoints';
import { keptWithin, type RunInPlace, type Stretch } from '../../../core/sheets/slide';

const RULES = { lap: 2, least: 4 };

/** Whether any lengths at all keep every joint clear. */
function anyLengths(
  start: number,
  end: number,
  pieces: readonly PieceWanted[],
  kept: readonly Stretch[],
): boolean {
  const [first, ...others] = pieces;
  if (!first) return false;
  if (others.length === 0) return end - start >= RULES.least && end - start <= first.most;
  for (let length = RULES.least; length <= first.most; length++) {
    const centre = start + length - RULES.lap / 2;
    if (kept.some(([from, to]) => centre > from && centre < to)) continue;
    if (anyLengths(start + length - RULES.lap, end, others, kept)) return true;
  }
  return false;
}

const piece = record({ most: integer({ min: 3, max: 14 }), wanted: integer({ min: 2, max: 16 }) });
const stretch = record({ from: integer({ min: -4, max: 44 }), wide: integer({ min: 1, max: 9 }) });

describe('joints of a run', () => {
  it('are placed wherever there is a way, and every one keeps the rules', () => {
    assert(
      property(
        integer({ min: 4, max: 40 }),
        array(piece, { minLength: 1, maxLength: 4 }),
        array(stretch, { maxLength: 6 }),
        (length, pieces, stretches) => {
          const run: RunInPlace = { course: 0, from: 3, length };
          const kept = keptWithin(
            run,
            stretches.map(({ from, wide }): Stretch => [from, from + wide]),
          );
          const lengths = placeJoints(run, pieces, kept, RULES);
          expect(lengths !== null).toBe(anyLengths(run.from, run.from + length, pieces, kept));
          if (!lengths) return;
          let start = run.from;
          lengths.forEach((own, k) => {
            expect(own).toBeGreaterThanOrEqual(RULES.least);
            expect(own).toBeLessThanOrEqual((pieces[k] as PieceWanted).most);
            start += own - RULES.lap;
            const centre = start + RULES.lap / 2;
            if (k + 1 < lengths.length)
              for (const [from, to] of kept) expect(centre <= from || centre >= to).toBe(true);
          });
          expect(start + RULES.lap).toBe(run.from + length);
        },
      ),
      { numRuns: 3000 },
    );
  });

  it('stay where they were wanted if nothing is in the way, and move as little as will do', () => {
    const run: RunInPlace = { course: 0, from: 0, length: 38 };
    const wanted = [
      { most: 30, wanted: 20 },
      { most: 30, wanted: 20 },
    ];
    expect(placeJoints(run, wanted, [], RULES)).toEqual([20, 20]);
    // The lap's centre at 19 goes to 16, three steps away, and not to 23.
    expect(placeJoints(run, wanted, [[16, 23]], RULES)).toEqual([17, 23]);
  });
});
