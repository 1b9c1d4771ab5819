// What is wrong with the rules of a layout themselves, before any roof is looked at.
import type { LayoutFault, LayoutSpec } from './types';

export function specFaults({ roll, sideLap, lap, firstCourse }: LayoutSpec): LayoutFault[] {
  const faults: LayoutFault[] = [];
  const fault = (where: string, message: string) => faults.push({ where, message });
  if (!(roll.width > 0 && roll.length > 0))
    fault('sheet', 'The roll has no width or no length. Give both in millimetres, above zero.');
  if (!(sideLap > 0))
    fault('sideLap', 'The side lap must be above zero. Give the lap that the system asks for.');
  if (!(lap.endLap > 0))
    fault('endLap', 'The end lap must be above zero. Give the lap that the system asks for.');
  if (sideLap >= roll.width)
    fault(
      'sideLap',
      `A side lap of ${sideLap} mm is as wide as the sheet (${roll.width} mm). Give a lap narrower than the sheet.`,
    );
  if (lap.endLap >= roll.length)
    fault(
      'endLap',
      `An end lap of ${lap.endLap} mm is as long as the roll (${roll.length} mm). Give a shorter lap.`,
    );
  if (lap.minPiece > roll.length)
    fault(
      'minPiece',
      `The shortest piece (${lap.minPiece} mm) is longer than the roll (${roll.length} mm). Give a shorter piece or a longer roll.`,
    );
  if (lap.endLapStagger < 0 || lap.minPiece < 0 || lap.cutAllowance < 0)
    fault(
      'laps',
      'Stagger, shortest piece and cutting allowance cannot be below zero. Type 0 where there is none.',
    );
  if (firstCourse !== null && !(firstCourse <= 0 && firstCourse > sideLap - roll.width))
    fault(
      'firstCourse',
      `The first course must begin between ${sideLap - roll.width} mm (not included) and 0 from the lowest point. Give an offset in that range.`,
    );
  return faults;
}
