// Places in words: so far one way and so far the other from a named corner.
import { planHeading, type SetOut } from '../../core/drawing/setOut';
import type { Frame, Layout, Sheet } from '../../core/sheets/types';
import { formatLength, type Display } from '../../core/units/lengths';

/** Nearer than this, mm, is at the corner's own line. */
const ON_LINE = 0.5;

export function placeWords(place: SetOut, frame: Frame, display: Display): string {
  const far = farWords(place, frame, display);
  return far === '' ? `at corner ${place.corner.name}` : `from corner ${place.corner.name}: ${far}`;
}

/** Only how far and which way; empty at the corner itself. */
export function farWords({ along, across }: SetOut, frame: Frame, display: Display): string {
  const parts = [
    [across, frame.direction + 90],
    [along, frame.direction],
  ] as const;
  return parts
    .filter(([far]) => Math.abs(far) >= ON_LINE)
    .map(([far, way]) => `${formatLength(Math.abs(far), display)} ${planHeading(far < 0 ? way + 180 : way)}`)
    .join(', ');
}

/** The rows along an edge run their own way. */
export function frameOf({ bands, frame }: Layout, { band }: Sheet): Frame {
  return bands.find(({ id }) => id === band)?.frame ?? frame;
}
