// Plans in the hands of several drafting programs: what `scale` says first, and the outlines of what is drawn on them,
// against the lengths they were drawn with.
import { describe, expect, it } from 'vitest';
import { signedArea } from '../../../core/geometry/ring';
import { readLinework } from '../../../core/plan/linework';
import { buildPageIndex } from '../../../core/plan/pageIndex';
import { findScale } from '../../../core/plan/scale';
import { buildRegionIndex, traceRegion } from '../../../core/plan/traceRegion';
import type { Linework } from '../../../core/plan/types';
import { openPdf, readPage } from '../../../shared/readers/pdf';
import { BUSY_PLANS } from '../../support/cadBusy';
import { HOUSE_PLANS } from '../../support/cadHouse';
import { placer } from '../../support/cadPlan';
import type { CadPlan } from '../../support/cadPlan';
import { ROOF_PLANS } from '../../support/cadRoofs';
import { roughPdf } from '../../support/roughPlan';

async function read(plan: CadPlan): Promise<Linework> {
  const { p, mm } = placer(plan);
  const opened = await openPdf(roughPdf(plan.page, (pen) => plan.draw(pen, p, mm)));
  if (!opened.ok) throw new Error(opened.failure.what);
  const content = await readPage(opened.value, 1);
  await opened.value.close();
  if (!content.ok) throw new Error(content.failure.what);
  return readLinework(content.value);
}

describe.each([...HOUSE_PLANS, ...ROOF_PLANS, ...BUSY_PLANS].map((plan) => [plan.name, plan] as const))(
  '%s',
  (_name, plan) => {
    it('gives its scale first and its shapes as drawn', async () => {
      const linework = await read(plan);
      const page = buildPageIndex(linework);
      const [first] = findScale(linework, page).candidates;
      const due = plan.scale === undefined ? plan.ratio : plan.scale;
      if (due === null) expect(first).toBeUndefined();
      else expect((first?.ratio ?? 0) / due).toBeCloseTo(1, 6);
      const index = buildRegionIndex(page);
      const { p, mm } = placer(plan);
      for (const { name, at, area, mode = 'shape', openings, gap } of plan.shapes) {
        const reading = traceRegion(index, p(at), { mode, ...(gap === undefined ? {} : { gap }) });
        if ('refusal' in reading) throw new Error(`${name}: ${reading.refusal}`);
        const found = signedArea(reading.region.outline) * (mm / 1000) ** 2;
        expect(Math.abs(found / area - 1), `${name}: ${found} for ${area} m²`).toBeLessThan(0.005);
        if (openings !== undefined) expect(reading.region.openings, name).toHaveLength(openings);
      }
    });
  },
);
