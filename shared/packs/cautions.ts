// Cautions, in our own words. They remind; they certify nothing, and local law, the site's safety plan and licensed
// practice come first. Sources: 29 CFR 1926.501/502, 1910.252; UK Work at Height Regulations 2005; NFPA 51B.

const FIRST = 'Local law, the safety plan of the site and the licensed designer come before anything here.';

export const CREW_CAUTIONS: readonly string[] = [
  FIRST,
  'Every edge and every opening drawn is a fall hazard until it is guarded or covered and marked. Keep machine runs parallel to edges, and treat a welding machine as mechanical equipment when setting the warning line.',
  'Hot air is hot work: permit, extinguisher within reach, nothing that burns beneath, no wet solvent nearby, and a fire watch after the last weld for as long as the permit says.',
  'No electric tools on a wet deck; leads out of puddles, on a residual-current device.',
  'Stop with loose sheets when the wind gets up, and with all work when it upsets balance or at thunder.',
  'Prove the settings on a test strip before the first seam, and again whenever weather, machine or hand changes.',
];

export const ORDER_CAUTIONS: readonly string[] = [
  FIRST,
  'Masses are of the goods as listed, without packing. Spread pallets over the main supports, away from edges, tied down against wind, and ask the engineer what the deck may carry before anything is set down on it.',
  'A roll is heavier than one person should lift. Keep the hoisting area clear.',
];

export const BID_CAUTIONS: readonly string[] = [
  'An estimate from the drawing and the figures named here. Written dimensions govern; measure on site before ordering.',
  'Wind zones, pressures and the fastener pattern are to be confirmed by a licensed engineer and the approving authority.',
];
