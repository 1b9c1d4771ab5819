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
    const check = checkSupply({
      machines: [{ name: 'M', factor: 1, handed: 'right', amps }],
      supply: { ...SHIPPED_WELDING.supply, leadLength: length, leadSection: section },
    });
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
    expect(checkSupply({ ...SHIPPED_WELDING, supply }).powerShare).toBeCloseTo(0.85, 2);
  });
  it('two machines of 20 A: 9.2 kW running, 11.5 kW of generator; 10 kW is too little', () => {
    const [machine] = SHIPPED_WELDING.machines;
    const check = checkSupply({
      machines: machine ? [machine, machine] : [],
      supply: { ...SHIPPED_WELDING.supply, kilowatts: 10 },
    });
    expect(check.running).toBeCloseTo(9.2, 9);
    expect(check.generator).toBeCloseTo(11.5, 9);
    expect(check.supplyHolds).toBe(false);
  });
});
