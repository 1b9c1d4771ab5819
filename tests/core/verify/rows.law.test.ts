// Law: real outlines with rows along every edge are laid without a fault, whatever way their corners turn.
import { describe, expect, it } from 'vitest';
import { placeFasteners } from '../../../core/fastening/placeFasteners';
import { buildRoof } from '../../../core/roof/buildRoof';
import type { PerimeterRows, Roof } from '../../../core/roof/types';
import { findSeams } from '../../../core/seams/findSeams';
import { layRoof } from '../../../core/sheets/layRoof';
import { verifyLayout } from '../../../core/verify/verifyLayout';
import { realOutlines } from '../../support/outlines';
import { layoutSpec, roofSpec } from '../../support/roofs';

const SPACING = { inLap: 300, atEdge: 300 };

/** Of the 79 outlines with rows of one metre one has errors left: four sheets in a nook between equal rows; and one where
 * three edges' rows of 1.2 m meet the field. */
const LEFT_AT_MOST = new Map([
  ['2 rows of 1000 mm', 1],
  ['3 rows of 1000 mm', 1],
  ['3 rows of 1200 mm', 1],
]);

describe('rows along every edge of real outlines', () => {
  const outlines = realOutlines();
  for (const sheets of [1, 2, 3])
    for (const width of [1000, 1200, 1500]) {
      const name = `${sheets} row${sheets > 1 ? 's' : ''} of ${width} mm`;
      it.skipIf(outlines.length === 0)(`${name} lap and end as they must`, () => {
        const wrong = outlines.filter(({ roof }) => errorsOf(withRows(roof, { sheets, width })).length > 0);
        expect(wrong.length, wrong.map(({ id }) => id).join()).toBeLessThanOrEqual(
          LEFT_AT_MOST.get(name) ?? 0,
        );
      });
    }
});

function withRows(roof: Roof, perimeter: PerimeterRows): Roof {
  const plain = roofSpec(
    roof.outline,
    roof.openings.map((opening) => opening.ring),
  );
  const edges = plain.outline.edges.map((edge) => ({ ...edge, perimeter }));
  const built = buildRoof({ ...plain, outline: { ...plain.outline, edges } });
  if ('faults' in built) throw new Error(built.faults[0]?.message);
  return built.roof;
}

function errorsOf(roof: Roof): readonly string[] {
  const laid = layRoof(roof, layoutSpec({}));
  if ('faults' in laid) return laid.faults.map(({ message }) => message);
  const seams = findSeams(roof, laid.layout);
  const fastening = placeFasteners(roof, laid.layout, seams, SPACING);
  return verifyLayout(roof, laid.layout, seams, fastening, SPACING)
    .filter(({ severity }) => severity === 'error')
    .map(({ message }) => message);
}
