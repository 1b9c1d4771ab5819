// Flashing strips out of offcuts.
import { describe, expect, it } from 'vitest';
import { listDetails } from '../../../core/details/listDetails';
import { layRoof } from '../../../core/sheets/layRoof';
import { productsOf } from '../../../core/sheets/listCuts';
import { REUSE_RULES, reuseOffcuts, withStripLaps } from '../../../core/sheets/reuseOffcuts';
import { built, generatedRoof, layoutSpec, rectangle, roofSpec } from '../../support/roofs';

describe('reuseOffcuts', () => {
  it('worked: 20 × 6 m with parapets 300 mm high, rolls 3 × 30 m', () => {
    // Two courses of 20 m (a third of 0.36 m more: ⌈(6000 − 120) / 2880⌉ = 3). Each roll leaves 10 m × 3 m. A strip is
    // 0.4 m high, so seven fit side by side: 3 × 7 strips of up to 10 m. The two sides of 20 m take two strips of 10 m
    // each, the first covering 9.9 m, and a third of 10 − 9.8 … : 20 = 9.9 + 9.9 + 0.2, and 0.2 m is not worth a strip.
    const roof = built(roofSpec(rectangle(20_000, 6000)));
    const laid = layRoof(roof, layoutSpec());
    if ('faults' in laid) throw new Error(laid.faults[0]?.message);
    const { flashings } = listDetails(roof, 20_000);
    const strips = reuseOffcuts(laid.layout.cutList, productsOf(laid.layout), flashings);
    const onEdge = (edge: string) => strips.filter((s) => s.edge === edge).map((s) => [s.length, s.covers]);
    expect(laid.layout.cutList.rolls.map((r) => r.offcut)).toEqual([10_000, 10_000, 10_000]);
    expect(onEdge('e0')).toEqual([
      [10_000, 9900],
      [10_000, 9900],
    ]);
    expect(onEdge('e1')).toEqual([[6000, 6000]]);
    // Two strips on e0 bring two laps of 0.3 m, since something still follows; the one on e1 brings none.
    const lapped = withStripLaps(flashings, strips, 100);
    const weld = (edge: string) =>
      (lapped.find((f) => f.edge === edge)?.weld ?? 0) - (flashings.find((f) => f.edge === edge)?.weld ?? 0);
    expect(weld('e0')).toBe(600);
    expect(weld('e1')).toBe(0);
  });

  it('keeps strips within their offcuts and apart, and gives no edge more than it needs', () => {
    for (let seed = 1; seed <= 200; seed++) {
      const roof = generatedRoof(seed);
      const laid = layRoof(roof, layoutSpec({ direction: 'auto' }));
      if ('faults' in laid) throw new Error(laid.faults[0]?.message);
      const { flashings } = listDetails(roof, 20_000);
      const strips = reuseOffcuts(laid.layout.cutList, productsOf(laid.layout), flashings);
      for (const roll of laid.layout.cutList.rolls) {
        const own = strips.filter((s) => s.roll === roll.id).sort((a, b) => a.lane - b.lane);
        own.forEach((strip, k) => {
          expect(strip.start).toBeCloseTo(30_000 - roll.offcut, 6);
          expect(strip.length).toBeLessThanOrEqual(roll.offcut + 1e-6);
          expect(strip.length).toBeGreaterThanOrEqual(REUSE_RULES.leastStrip);
          expect(strip.lane + strip.height).toBeLessThanOrEqual(3000);
          const next = own[k + 1];
          if (next) expect(strip.lane + strip.height).toBeLessThanOrEqual(next.lane);
        });
      }
      for (const flashing of flashings) {
        const covers = strips.filter((s) => s.edge === flashing.edge).reduce((sum, s) => sum + s.covers, 0);
        expect(covers).toBeLessThanOrEqual(flashing.length + 1e-6);
      }
    }
  });
});
