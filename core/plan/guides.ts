// Directions worth keeping while a ring is drawn: square to the page and to the last side, angle steps, and the
// lines through the first corner on which the last corner closes square.
import type { PagePoint } from '../geometry/points';
import { toRadians } from '../units/angles';

export interface Guide {
  readonly through: PagePoint;
  /** Unit vector. */
  readonly along: PagePoint;
  readonly kind: 'square' | 'from first' | 'angle';
  readonly label: string;
}

const ANGLE_STEP = 15;

export function guidesFrom(placed: readonly PagePoint[], ortho: 'free' | 'locked'): Guide[] {
  const last = placed.at(-1);
  if (!last) return [];
  const guides: Guide[] = [
    { through: last, along: [1, 0], kind: 'square', label: 'level with the page' },
    { through: last, along: [0, 1], kind: 'square', label: 'upright on the page' },
  ];
  const side = placed.length >= 2 ? direction(placed[placed.length - 2], last) : null;
  if (side && side[0] !== 0 && side[1] !== 0)
    guides.push(
      { through: last, along: side, kind: 'square', label: 'in line with the last side' },
      { through: last, along: [-side[1], side[0]], kind: 'square', label: 'square to the last side' },
    );
  const first = placed[0];
  const opening = placed.length >= 2 ? direction(placed[0], placed[1]) : null;
  if (first && opening && placed.length >= 2)
    guides.push(
      { through: first, along: opening, kind: 'from first', label: 'in line with the first side' },
      {
        through: first,
        along: [-opening[1], opening[0]],
        kind: 'from first',
        label: 'square to the first side',
      },
    );
  if (ortho === 'free')
    for (let degrees = ANGLE_STEP; degrees < 180; degrees += ANGLE_STEP)
      if (degrees !== 90)
        guides.push({
          through: last,
          along: [Math.cos(toRadians(degrees)), Math.sin(toRadians(degrees))],
          kind: 'angle',
          label: `at ${degrees}°`,
        });
  return guides;
}

function direction(from: PagePoint | undefined, to: PagePoint | undefined): PagePoint | null {
  if (!from || !to) return null;
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  return length === 0 ? null : [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
}
