// Reads a DXF drawing into a page: drawn full size in the unit of its header, laid out at the usual scale at which it
// fits the largest sheet. The only file that knows the DXF library's parser.
import DxfParser from 'dxf-parser';
import type { IDxf } from 'dxf-parser';
import type { PageContent } from '../../core/plan/types';
import { done, failed } from '../errors/failure';
import type { Outcome } from '../errors/failure';
import { BINARY_DXF } from './looksLikeDxf';
import { readDxfShapes } from './dxfShapes';

export const LARGEST_DXF_BYTES = 128 * 1024 * 1024;

export function readDxf(bytes: Uint8Array, where = 'the file'): Outcome<PageContent> {
  const toText = 'Save it as a DXF in text, with the plan in model space';
  if (bytes.length > LARGEST_DXF_BYTES)
    return failed('too-large', where, 'it is larger than 128 MB', 'Save only the plan as a DXF of its own');
  const text = new TextDecoder('utf-8').decode(bytes);
  if (text.startsWith(BINARY_DXF)) return failed('not-readable', where, 'it is a DXF in binary form', toText);
  let dxf: IDxf | null;
  try {
    dxf = new DxfParser().parseSync(text);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return failed('damaged', where, `it begins like a DXF but cannot be read (${why.slice(0, 120)})`, toText);
  }
  if (!dxf?.entities) return failed('damaged', where, 'it is a DXF without a drawing in it', toText);
  const shapes = readDxfShapes(dxf);
  if (!shapes)
    return failed(
      'too-large',
      where,
      'it unfolds into too many lines',
      'Save only the plan as a DXF of its own',
    );
  const { paths, texts } = shapes;
  const unit = unitOf(dxf.header ?? {});
  const bounds = boundsOf(paths.coords);
  if (!bounds) return failed('damaged', where, 'its model space is empty', toText);
  const { ratio, perUnit } = layOut(bounds, unit.mm);
  const toPoint = (x: number, y: number): readonly [number, number] => [
    (x - bounds[0]) * perUnit + MARGIN,
    (y - bounds[1]) * perUnit + MARGIN,
  ];
  const coords = new Float64Array(paths.coords.length);
  for (let k = 0; k + 1 < coords.length; k += 2)
    coords.set(toPoint(paths.coords[k] ?? 0, paths.coords[k + 1] ?? 0), k);
  return done({
    box: [
      0,
      0,
      (bounds[2] - bounds[0]) * perUnit + 2 * MARGIN,
      (bounds[3] - bounds[1]) * perUnit + 2 * MARGIN,
    ],
    rotation: 0,
    userUnit: 1,
    layers: shapes.layers,
    hiddenLayers: shapes.hiddenLayers,
    images: [],
    paths: { ...paths, coords },
    texts: texts.map((one) => ({
      ...one,
      at: toPoint(one.at[0], one.at[1]),
      height: one.height * perUnit,
      width: one.width * perUnit,
    })),
    fullSize: {
      ratio,
      text: `drawn full size in ${unit.name}${unit.assumed ? ', which is assumed: the file names no unit' : ''}; laid out at 1:${ratio}`,
    },
  });
}

/** Points round the drawing. */
const MARGIN = 36;
const POINTS_PER_MM = 72 / 25.4;
/** The longer side of A0, mm. */
const LARGEST_SHEET = 1189;
const RATIOS = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000, 100_000];

/** Values of $INSUNITS. */
const UNITS: Readonly<Record<number, { readonly name: string; readonly mm: number }>> = {
  1: { name: 'inches', mm: 25.4 },
  2: { name: 'feet', mm: 304.8 },
  4: { name: 'millimetres', mm: 1 },
  5: { name: 'centimetres', mm: 10 },
  6: { name: 'metres', mm: 1000 },
  10: { name: 'yards', mm: 914.4 },
  14: { name: 'decimetres', mm: 100 },
};

function unitOf(header: IDxf['header']): {
  readonly name: string;
  readonly mm: number;
  readonly assumed: boolean;
} {
  const named = UNITS[Number(header.$INSUNITS)];
  if (named) return { ...named, assumed: false };
  return header.$MEASUREMENT === 0
    ? { name: 'inches', mm: 25.4, assumed: true }
    : { name: 'millimetres', mm: 1, assumed: true };
}

function boundsOf(coords: Float64Array): readonly [number, number, number, number] | null {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let k = 0; k + 1 < coords.length; k += 2) {
    const x = coords[k] ?? 0;
    const y = coords[k + 1] ?? 0;
    if (!Number.isFinite(x) || !Number.isFinite(y)) continue;
    x0 = Math.min(x0, x);
    y0 = Math.min(y0, y);
    x1 = Math.max(x1, x);
    y1 = Math.max(y1, y);
  }
  return x1 > x0 || y1 > y0 ? [x0, y0, x1, y1] : null;
}

function layOut(
  [x0, y0, x1, y1]: readonly [number, number, number, number],
  mm: number,
): { readonly ratio: number; readonly perUnit: number } {
  const longest = Math.max(x1 - x0, y1 - y0) * mm;
  const ratio = RATIOS.find((one) => longest / one <= LARGEST_SHEET) ?? 100_000;
  return { ratio, perUnit: (mm / ratio) * POINTS_PER_MM };
}
