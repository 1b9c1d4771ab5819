// Pages made by hand for the tests of core/plan.
import { PAINT, PATH_VERBS } from '../../../core/plan/types';
import type { Note, PageContent } from '../../../core/plan/types';

type Place = readonly [number, number];

/** A page whose paths are polylines; a path of four points marked as a curve is one cubic. */
export function pageOf(
  polylines: readonly { readonly points: readonly Place[]; readonly as?: 'curve' | 'ring' | 'fill' }[],
  page: Partial<Pick<PageContent, 'box' | 'rotation' | 'userUnit' | 'texts' | 'images'>> = {},
): PageContent {
  const verbs: number[] = [];
  const coords: number[] = [];
  const firstVerb = [0];
  const firstCoord = [0];
  for (const { points, as } of polylines) {
    coords.push(...points.flat());
    const rest = as === 'curve' ? [PATH_VERBS.curve] : points.slice(1).map(() => PATH_VERBS.line);
    verbs.push(PATH_VERBS.move, ...rest, ...(as === 'ring' || as === 'fill' ? [PATH_VERBS.close] : []));
    firstVerb.push(verbs.length);
    firstCoord.push(coords.length);
  }
  const count = polylines.length;
  return {
    box: [0, 0, 600, 400],
    rotation: 0,
    userUnit: 1,
    layers: [''],
    hiddenLayers: [],
    texts: [],
    images: [],
    ...page,
    paths: {
      count,
      verbs: Uint8Array.from(verbs),
      coords: Float64Array.from(coords),
      firstVerb: Uint32Array.from(firstVerb),
      firstCoord: Uint32Array.from(firstCoord),
      paint: Uint8Array.from(polylines, ({ as }) => (as === 'fill' ? PAINT.fill : PAINT.stroke)),
      width: new Float32Array(count).fill(0.5),
      ink: new Uint32Array(count),
      dashed: new Uint8Array(count),
      layer: new Uint16Array(count),
      step: new Float32Array(count).fill(0.0001),
    },
  };
}

export function noteOf(text: string, at: Place = [0, 0], height = 10): Note {
  return { text, at, height, width: 50, angle: 0 };
}
