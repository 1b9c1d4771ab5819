// In: machines, supply and lead. Out: what the lead loses and what the supply must give, as a planning check. Promise:
// it decides nothing; an electrician does.
import type { Rates } from '../rates/schema';

/** Ω·mm²/m of hot copper, which agrees with 8.91 Ω/km quoted for 2.5 mm² there and back. */
export const COPPER = 0.0225;

/** V lost along a single-phase lead: there and back, 2 · L · I · ρ ÷ S. m, A, mm². */
export function voltageDrop(length: number, amps: number, section: number): number {
  return (2 * length * amps * COPPER) / section;
}

/** Sections that leads are made in, mm² (IEC 60228). */
const SECTIONS = [0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35];

/** The exact section for a limit in %, and the next that is made; null where none of these will do. */
export function leastSection(length: number, amps: number, volts: number, percent: number) {
  const exact = (2 * length * amps * COPPER) / ((percent / 100) * volts);
  return { exact, made: SECTIONS.find((section) => section >= exact) ?? null };
}

export interface SupplyCheck {
  /** The machine that draws most, at the end of its lead, or all of them on one lead. */
  readonly machine: string;
  /** How many run at once. */
  readonly atOnce: number;
  readonly drop: number;
  readonly percent: number;
  /** Heating power goes with the square of the voltage. */
  readonly powerShare: number;
  readonly holds: boolean;
  readonly leastSection: number | null;
  /** kW of all machines at once, and of a generator that is to carry them: 1.25 times (common practice, no source). */
  readonly running: number;
  readonly generator: number;
  readonly supplyHolds: boolean | null;
}

const GENERATOR = 1.25;

/** `atOnce` of the machines run beside each other, the first ones listed. */
export function checkSupply(
  { machines: listed, supply }: Pick<Rates['welding'], 'machines' | 'supply'>,
  atOnce: number,
): SupplyCheck {
  const machines = listed.slice(0, atOnce);
  const all = machines.reduce((sum, { amps }) => sum + amps, 0);
  const most = machines.reduce((a, b) => (b.amps > a.amps ? b : a));
  const shared = supply.leads === 'one for all' && machines.length > 1;
  const amps = shared ? all : most.amps;
  const drop = voltageDrop(supply.leadLength, amps, supply.leadSection);
  const percent = (100 * drop) / supply.volts;
  const running = (all * supply.volts) / 1000;
  const generator = running * GENERATOR;
  return {
    machine: shared ? `${machines.length} machines on one lead` : most.name,
    atOnce: machines.length,
    drop,
    percent,
    powerShare: Math.max(0, 1 - percent / 100) ** 2,
    holds: percent <= supply.mostDropPercent,
    leastSection: leastSection(supply.leadLength, amps, supply.volts, supply.mostDropPercent).made,
    running,
    generator,
    supplyHolds: supply.kilowatts === null ? null : supply.kilowatts >= generator,
  };
}
