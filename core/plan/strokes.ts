// What a stroke of a page is besides the drawn part itself. Added up per segment; 0 is the drawn part.

export const STROKE = {
  dashed: 1,
  hatch: 2,
  annotation: 4,
  grid: 8,
  cover: 16,
  symbol: 32,
  lettering: 64,
  excluded: 128,
} as const;
