// What is wrong with the rules of a layout themselves, before any roof is looked at.
import type { Roof } from '../roof/types';
import type { LayoutFault, LayoutSpec } from './types';

export function specFaults(
  { roll, rolls, sideLap, lap, firstCourse, trade }: LayoutSpec,
  roof: Pick<Roof, 'edges'> | null = null,
): LayoutFault[] {
  const faults: LayoutFault[] = [];
  const fault = (where: string, message: string) => faults.push({ where, message });
  if (!(roll.width > 0 && roll.length > 0))
    fault('sheet', 'The roll has no width or no length. Give both in millimetres, above zero.');
  if (!(sideLap > 0))
    fault('sideLap', 'The side lap must be above zero. Give the lap that the system asks for.');
  if (trade.strip === null && !(lap.endLap > 0))
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
  if (trade.strip !== null && !(trade.strip > 0))
    fault('stripWidth', 'The strip over butted ends has no width. Give the width that the system asks for.');
  const widest = Math.max(roll.width, ...rolls.map(({ width }) => width));
  const wide = roof?.edges.find((edge) => edge.perimeter && edge.perimeter.width > widest);
  if (wide?.perimeter)
    fault(
      `edge ${wide.number}`,
      `Its perimeter sheets are ${wide.perimeter.width} mm wide and the widest roll is ${widest} mm. Give narrower sheets.`,
    );
  const narrow = roof?.edges.find((edge) => edge.perimeter && edge.perimeter.width <= 2 * sideLap);
  if (narrow?.perimeter)
    fault(
      `edge ${narrow.number}`,
      `Its perimeter sheets (${narrow.perimeter.width} mm) are no wider than two side laps. Give wider sheets.`,
    );
  if (trade.minWidth >= roll.width)
    fault(
      'minWidth',
      `The least width of a course (${trade.minWidth} mm) is as wide as the sheet (${roll.width} mm). Give less.`,
    );
  if (firstCourse !== null && !(firstCourse <= 0 && firstCourse > sideLap - roll.width))
    fault(
      'firstCourse',
      `The first course must begin between ${sideLap - roll.width} mm (not included) and 0 from the lowest point. Give an offset in that range.`,
    );
  return faults;
}
