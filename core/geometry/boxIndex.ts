// The one packed box index, behind one adapter: built once, searched often, never changed.
import Flatbush from 'flatbush';

export type Box = readonly [left: number, bottom: number, right: number, top: number];

export interface BoxIndex {
  readonly count: number;
  /** Numbers of the boxes that meet or touch `box`, in rising order. */
  search(box: Box): number[];
  /** The same boxes in no order, without making a list of them. */
  each(box: Box, visit: (k: number) => void): void;
}

export function buildBoxIndex(count: number, boxOf: (k: number) => Box): BoxIndex {
  if (count === 0) return { count, search: () => [], each: () => undefined };
  const index = new Flatbush(count);
  for (let k = 0; k < count; k++) index.add(...boxOf(k));
  index.finish();
  return {
    count,
    search: (box) => index.search(...box).sort((a, b) => a - b),
    each: ([left, bottom, right, top], visit) => {
      index.search(left, bottom, right, top, (k) => {
        visit(k);
        return false;
      });
    },
  };
}
