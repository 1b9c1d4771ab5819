// The documents that a job gives, by their file names.
export const PACK_NAMES = [
  'bid.pdf',
  'order.pdf',
  'roof.pdf',
  'order.csv',
  'cut-list.csv',
  'welds.csv',
  'bid.xlsx',
  'layout.dxf',
] as const;

export type PackName = (typeof PACK_NAMES)[number];
