// Layers and line widths of a page, and which of them a person has hidden: furniture, hatching and pipes then catch
// neither the pointer nor a trace.
import type { PageIndex } from './pageIndex';
import { SEGMENT_MARK } from './types';
import type { Linework } from './types';

export interface Hiding {
  /** By their number on the page. */
  readonly layers: readonly number[];
  /** By their class: hundredths of a millimetre on paper, or `FILLS`. */
  readonly widths: readonly number[];
}

export const NOTHING_HIDDEN: Hiding = { layers: [], widths: [] };
/** The class of what is filled and has no line. */
export const FILLS = -1;

export interface LineGroup {
  readonly key: number;
  readonly count: number;
}

/** What can be hidden, most lines first. */
export function listGroups(linework: Linework): {
  readonly layers: readonly (LineGroup & { readonly name: string })[];
  readonly widths: readonly LineGroup[];
} {
  const layers = new Map<number, number>();
  const widths = new Map<number, number>();
  for (let k = 0; k < linework.widths.length; k++) {
    const layer = linework.layer[k] ?? 0;
    const width = widthClass(linework, k);
    layers.set(layer, (layers.get(layer) ?? 0) + 1);
    widths.set(width, (widths.get(width) ?? 0) + 1);
  }
  return {
    layers: sorted(layers).map((group) => ({ ...group, name: linework.layers[group.key] ?? '' })),
    widths: sorted(widths),
  };
}

export function hideLines(page: PageIndex, { layers, widths }: Hiding): PageIndex {
  if (layers.length === 0 && widths.length === 0) return { ...page, hidden: null };
  const { linework } = page;
  const noLayers = new Set(layers);
  const noWidths = new Set(widths);
  const hidden = new Uint8Array(linework.widths.length);
  for (let k = 0; k < hidden.length; k++)
    if (noLayers.has(linework.layer[k] ?? 0) || noWidths.has(widthClass(linework, k))) hidden[k] = 1;
  return { ...page, hidden };
}

export function widthClassOf(width: number, paint: 'line' | 'fill'): number {
  return paint === 'fill' ? FILLS : Math.round((width / 72) * 2540);
}

function widthClass({ widths, marks }: Linework, k: number): number {
  return widthClassOf(widths[k] ?? 0, ((marks[k] ?? 0) & SEGMENT_MARK.fill) === 0 ? 'line' : 'fill');
}

function sorted(counts: ReadonlyMap<number, number>): LineGroup[] {
  return [...counts]
    .map(([key, count]) => ({ key, count }))
    .sort((a, b) => b.count - a.count || a.key - b.key);
}
