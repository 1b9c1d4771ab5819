// In: the rates and what is welded. Out: the machine's speed with every factor shown, and published forms of labour
// arithmetic. Promise: a factor that nobody set off stays 1 and changes nothing.
import type { Rates } from '../rates/schema';

export interface SheetKind {
  readonly material: 'TPO' | 'PVC';
  /** mm */
  readonly thickness: number;
}

export interface SpeedFactor {
  readonly name: string;
  readonly factor: number;
}

export interface MachineSpeed {
  /** m/min */
  readonly speed: number;
  readonly factors: readonly SpeedFactor[];
}

/** The planning speed times sheet, air, surface and machine. */
export function machineSpeed(
  rates: Pick<Rates, 'speeds' | 'welding'>,
  sheet: SheetKind,
  machine: number,
): MachineSpeed {
  const { welding, speeds } = rates;
  const { celsius, surface } = welding.conditions;
  const own = welding.sheets.filter(({ material }) => material === sheet.material);
  const thickness = readBetween(
    own.map((row) => [row.thickness, row.factor]),
    sheet.thickness,
  );
  const factors = [
    { name: `${sheet.material} ${sheet.thickness} mm`, factor: thickness },
    {
      name: `${celsius} °C`,
      factor: readBetween(
        welding.ambient.map((row) => [row.celsius, row.factor]),
        celsius,
      ),
    },
    { name: surface, factor: welding.surfaces.find((row) => row.name === surface)?.factor ?? 1 },
    { name: welding.machines[machine]?.name ?? 'machine', factor: welding.machines[machine]?.factor ?? 1 },
  ];
  return { speed: factors.reduce((speed, { factor }) => speed * factor, speeds.machine), factors };
}

/** On a table of [x, y]: between rows in a straight line, beyond its ends as at its ends; 1 of an empty table. */
export function readBetween(rows: readonly (readonly [number, number])[], x: number): number {
  const sorted = [...rows].sort((a, b) => a[0] - b[0]);
  const [first] = sorted;
  if (!first) return 1;
  let before = first;
  for (const row of sorted) {
    if (row[0] >= x) {
      const gap = row[0] - before[0];
      return gap === 0 ? row[1] : before[1] + ((row[1] - before[1]) * (x - before[0])) / gap;
    }
    before = row;
  }
  return before[1];
}

/** Everything that makes the hours on the roof longer, one by one and together. */
export function productivityOf({ productivity }: Rates['welding']): {
  readonly factor: number;
  readonly parts: readonly SpeedFactor[];
} {
  const parts = [
    { name: 'height', factor: productivity.height },
    { name: 'crowding', factor: productivity.crowding },
    { name: 'weather', factor: productivity.weather },
  ];
  return { factor: parts.reduce((product, part) => product * part.factor, 1), parts };
}

/** Person-hours of a task: quantity × hours a unit × what makes it longer. NAVFAC P-405's form, as a construction
 * manual quotes it, divides by eight for man-days. */
export function taskHours(quantity: number, perUnit: number, delay: number): number {
  return quantity * perUnit * delay;
}

/** Person-hours on hand: people × days × hours × availability. A naval construction manual's capacity, DL · WD · ME ·
 * AF with ME = hours ÷ 8, is the same in days of eight hours. */
export function crewHours(people: number, days: number, hours: number, availability: number): number {
  return people * days * hours * availability;
}

/** Minutes of a weld run with what the work loses: welding ÷ efficiency, and what stands beside it as it is. */
export function workedMinutes(welding: number, efficiency: number, beside: number): number {
  return welding / efficiency + beside;
}
