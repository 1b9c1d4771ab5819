// In: a peel reading and how the trial weld failed. Out: whether it passes, in one unit or another. Promise: units
// convert by definition; how it failed outranks how high it read.

export const PEEL_UNITS = ['N/mm', 'N/50 mm', 'N/25 mm', 'lbf/in'] as const;
export type PeelUnit = (typeof PEEL_UNITS)[number];

export interface Peel {
  readonly value: number;
  readonly unit: PeelUnit;
}

/** N/mm in one of each. 1 lbf = 4.4482216152605 N and 1 in = 25.4 mm by definition. */
const NEWTON_PER_MM: Readonly<Record<PeelUnit, number>> = {
  'N/mm': 1,
  'N/50 mm': 1 / 50,
  'N/25 mm': 1 / 25,
  'lbf/in': 4.4482216152605 / 25.4,
};

export function convertPeel({ value, unit }: Peel, to: PeelUnit): number {
  return unit === to ? value : (value * NEWTON_PER_MM[unit]) / NEWTON_PER_MM[to];
}

/** How a trial weld came apart, by the standards' classes in our own words. */
export const PEEL_RESULTS = [
  'reinforcement bared',
  'sheet tore beside',
  'bared in part',
  'peeled clean',
] as const;
export type PeelResult = (typeof PEEL_RESULTS)[number];

export interface Verdict {
  readonly passes: boolean;
  readonly why: string;
  /** What must follow; empty after a pass. */
  readonly follow: string;
}

/** `reading` is null where the strip was pulled by hand and looked at. */
export function judgePeel(result: PeelResult, reading: Peel | null, target: Peel): Verdict {
  const adjust = 'Adjust the settings and pull another strip before welding on.';
  if (result === 'peeled clean')
    return { passes: false, why: 'It peeled clean: a cold weld, however high it reads.', follow: adjust };
  if (result === 'bared in part')
    return { passes: false, why: 'The weld held over a part of its width only.', follow: adjust };
  if (reading === null) return { passes: true, why: 'Pulled by hand and looked at.', follow: '' };
  const read = convertPeel(reading, target.unit);
  // A conversion may leave a target of 45 at 44.999…: the last bit is no cold weld.
  const passes = read >= target.value * (1 - 1e-12);
  const figure = `${reading.value} ${reading.unit} against ${target.value} ${target.unit}`;
  return passes
    ? { passes, why: `${figure}.`, follow: '' }
    : { passes, why: `${figure}: below the target.`, follow: adjust };
}
