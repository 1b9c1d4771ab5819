// Voltage drop: the table of the welding reference, section 4, at 230 V.
import { describe, expect, it } from 'vitest';
import { SHIPPED_WELDING } from '../../../core/rates/welding';
import { checkSupply, leastSection, voltageDrop } from '../../../core/welding/power';

describe('the lead', () => {
  it.each([
    [20, 50, 2.5, 18.0, 7.8],
    [20, 50, 4, 11.25, 4.9],
    [16, 50, 2.5, 14.4, 6.3],
    [16, 25, 1.5, 12.0, 5.2],
    [20, 100, 4, 22.5, 9.8],
  ])('%d A over %d m of %d mm²: %d V, %d %%', (amps, length, section, drop, percent) => {
    expect(voltageDrop(length, amps, section)).toBeCloseTo(drop, 9);
    const check = checkSupply(
      {
        machines: [{ name: 'M', factor: 1, handed: 'right', amps }],
        supply: { ...SHIPPED_WELDING.supply, leadLength: length, leadSection: section },
      },
      1,
    );
    expect(check.percent).toBeCloseTo(percent, 1);
    expect(check.holds).toBe(percent <= 5);
  });
  it('20 A, 50 m, 5 %: 3.91 mm², so 4 mm²', () => {
    const { exact, made } = leastSection(50, 20, 230, 5);
    expect(exact).toBeCloseTo(3.91, 2);
    expect(made).toBe(4);
  });
  it('7.8 % lost leaves 0.85 of the heat', () => {
    const supply = { ...SHIPPED_WELDING.supply, leadSection: 2.5 };
    expect(checkSupply({ ...SHIPPED_WELDING, supply }, 1).powerShare).toBeCloseTo(0.85, 2);
  });
  it('two machines of 20 A: 9.2 kW running, 11.5 kW of generator; 10 kW is too little', () => {
    const [machine] = SHIPPED_WELDING.machines;
    const asked = {
      machines: machine ? [machine, machine] : [],
      supply: { ...SHIPPED_WELDING.supply, kilowatts: 10 },
    };
    const check = checkSupply(asked, 2);
    expect(check.running).toBeCloseTo(9.2, 9);
    expect(check.generator).toBeCloseTo(11.5, 9);
    expect(check.supplyHolds).toBe(false);
    // With people for one of them only: 4.6 kW running, 5.75 of generator.
    expect(checkSupply(asked, 1)).toMatchObject({ atOnce: 1, supplyHolds: true });
  });
  it('two machines of 16 A on one lead of 25 m and 4 mm²: 2 × 25 × 32 × 0.0225 ÷ 4 = 9 V, 3.9 %; alone 2.0 %', () => {
    const supply = { ...SHIPPED_WELDING.supply, leadLength: 25, leads: 'one for all' as const };
    const machine = { name: 'M', factor: 1, handed: 'right' as const, amps: 16 };
    const shared = checkSupply({ machines: [machine, machine], supply }, 2);
    expect(shared.drop).toBeCloseTo(9, 9);
    expect(shared.percent).toBeCloseTo(3.913, 3);
    const alone = { ...supply, leads: 'one each' as const };
    expect(checkSupply({ machines: [machine, machine], supply: alone }, 2).drop).toBeCloseTo(4.5, 9);
  });
});
