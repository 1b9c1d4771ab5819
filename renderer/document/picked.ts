// What a person can point at, by kind and id. A corner bears the id of the edge that starts there,
// a pinned end lap its place among its roof's pins.
export const PICKED_KINDS = [
  'roof',
  'opening',
  'edge',
  'corner',
  'fitting',
  'line',
  'pin',
  'sheet',
  'lap',
  't-joint',
  'weld',
] as const;
export type PickedKind = (typeof PICKED_KINDS)[number];

export interface Picked {
  readonly kind: PickedKind;
  readonly id: string;
  readonly roof: string | null;
}

export type Selection = readonly Picked[];

export function togglePicked(selection: Selection, one: Picked): Selection {
  return isPicked(selection, one)
    ? selection.filter((p) => p.kind !== one.kind || p.id !== one.id)
    : [...selection, one];
}

export function isPicked(selection: Selection, one: Pick<Picked, 'kind' | 'id'>): boolean {
  return selection.some((p) => p.kind === one.kind && p.id === one.id);
}

/** Ids of one kind, in the order they were picked. */
export function pickedIds(selection: Selection, kind: PickedKind): readonly string[] {
  return selection.filter((p) => p.kind === kind).map((p) => p.id);
}
