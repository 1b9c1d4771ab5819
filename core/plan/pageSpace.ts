// From a page's own user space to the page as displayed: cropped, turned, in points, y up; and set right where a person
// has levelled or stretched it.
import { correctedPage } from './correction';
import type { PageContent } from './types';

export type PageFrame = Pick<PageContent, 'box' | 'rotation' | 'userUnit' | 'correction'>;

export interface PageSpace {
  readonly width: number;
  readonly height: number;
  x(x: number, y: number): number;
  y(x: number, y: number): number;
}

export function pageSpace(frame: PageFrame): PageSpace {
  const displayed = displayedSpace(frame);
  if (!frame.correction) return displayed;
  const {
    width,
    height,
    map: [a, b, c, d, e, f],
  } = correctedPage(displayed, frame.correction);
  return {
    width,
    height,
    x: (x, y) => a * displayed.x(x, y) + c * displayed.y(x, y) + e,
    y: (x, y) => b * displayed.x(x, y) + d * displayed.y(x, y) + f,
  };
}

/** /Rotate turns clockwise (ISO 32000-1, table 30):
 *
 *     0: x right, y up     90: x' = y, y' = w − x     180: w − x, h − y     270: x' = h − y, y' = x
 */
function displayedSpace({ box, rotation, userUnit: unit }: PageFrame): PageSpace {
  const [left, bottom, right, top] = box;
  const wide = (right - left) * unit;
  const tall = (top - bottom) * unit;
  const upright = { width: wide, height: tall };
  const lying = { width: tall, height: wide };
  switch (rotation) {
    case 0:
      return { ...upright, x: (x) => (x - left) * unit, y: (_x, y) => (y - bottom) * unit };
    case 90:
      return { ...lying, x: (_x, y) => (y - bottom) * unit, y: (x) => (right - x) * unit };
    case 180:
      return { ...upright, x: (x) => (right - x) * unit, y: (_x, y) => (top - y) * unit };
    case 270:
      return { ...lying, x: (_x, y) => (top - y) * unit, y: (x) => (x - left) * unit };
  }
}
