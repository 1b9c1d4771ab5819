// Lengths that deck fasteners are sold in, mm. Generic (common practice, no source).
export const SHIPPED_FASTENER_LENGTHS = [
  40, 50, 60, 70, 80, 100, 120, 140, 160, 180, 200, 220, 240, 260, 280, 300,
];
