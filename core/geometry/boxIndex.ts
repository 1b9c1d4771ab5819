// The one packed box index, behind one adapter: built once, searched often, never changed.
import Flatbush from 'flatbush';

export type Box = readonly [left: number, bottom: number, right: number, top: number];

export interface BoxIndex {
  readonly count: number;
  /** What `openBoxIndex` makes the same index of, in another thread; null where there are no boxes. */
  readonly data: ArrayBuffer | null;
  /** Numbers of the boxes that meet or touch `box`, in rising order. */
  search(box: Box): number[];
  /** The same boxes in no order, without making a list of them. */
  each(box: Box, visit: (k: number) => void): void;
}

export function buildBoxIndex(count: number, boxOf: (k: number) => Box): BoxIndex {
  if (count === 0) return openBoxIndex(0, null);
  const index = new Flatbush(count);
  for (let k = 0; k < count; k++) index.add(...boxOf(k));
  index.finish();
  return searching(index);
}

export function openBoxIndex(count: number, data: ArrayBuffer | null): BoxIndex {
  if (count > 0 && data) return searching(Flatbush.from(data));
  return { count: 0, data: null, search: () => [], each: () => undefined };
}

/** Two indexes as one: the second's boxes count on from the first's. It cannot be opened in another thread. */
export function joinBoxIndexes(first: BoxIndex, second: BoxIndex): BoxIndex {
  return {
    count: first.count + second.count,
    data: null,
    search: (box) => [...first.search(box), ...second.search(box).map((k) => first.count + k)],
    each: (box, visit) => {
      first.each(box, visit);
      second.each(box, (k) => visit(first.count + k));
    },
  };
}

function searching(index: Flatbush): BoxIndex {
  return {
    count: index.numItems,
    data: index.data as ArrayBuffer,
    search: (box) => index.search(...box).sort((a, b) => a - b),
    each: ([left, bottom, right, top], visit) => {
      index.search(left, bottom, right, top, (k) => {
        visit(k);
        return false;
      });
    },
  };
}
