// Long edges of sheets, and rows of fasteners against the deck under them.
import { TOLERANCE_MM, ALONG_DEG } from './rules';
import type { Evidence, Say } from './evidence';

/** The over sheet of a fleece-backed membrane is welded onto the bare edge of the one under it. */
export function checkSelvedges({ given, bandOf, rectOf, sheetOf }: Evidence, say: Say): void {
  if (given.rules.trade.strip === null) return;
  for (const lap of given.seams.sideLaps) {
    const [first, second] = lap.between;
    const under = lap.over === first ? second : first;
    const [rect, over] = [rectOf.get(under), rectOf.get(lap.over)];
    const sheet = sheetOf.get(under);
    if (!rect || !over || !sheet || bandOf.get(first) !== bandOf.get(second)) continue;
    const covered = over.v0 + over.v1 > rect.v0 + rect.v1 ? 'high' : 'low';
    if (sheet.selvedge !== covered)
      say(
        'wrong-selvedge',
        lap.from,
        [lap.id, under],
        `Side lap ${lap.id} lies on the fleece of sheet ${under}: its bare edge is ${sheet.selvedge === null ? 'not known' : `the ${sheet.selvedge === 'low' ? 'lower' : 'upper'} one`}. Unroll it the other way round, or lap it the other way.`,
      );
  }
}

/** A sheet this near to its roll's own edge has it, mm. */
const WHOLE_MM = 1;

/** Cut edges of a reinforced sheet go under, or are sealed and counted. */
export function checkCutEdges({ given, bandOf, rectOf, sheetOf }: Evidence, say: Say): void {
  const { trade, products } = given.rules;
  for (const sheet of given.sheets) {
    const rect = rectOf.get(sheet.id);
    if (!rect) continue;
    const width = rect.v1 - rect.v0;
    const { lane } = sheet.cut;
    const left = products.map((p) => {
      const edges = [lane, p.width - lane - width].filter((gap) => Math.abs(gap) < WHOLE_MM);
      return lane + width <= p.width + WHOLE_MM ? edges.length : 0;
    });
    if (sheet.longEdges.filter((edge) => edge === 'factory').length > Math.max(0, ...left))
      say('false-edge', null, [sheet.id], `Sheet ${sheet.id} claims a factory edge that slitting took.`);
  }
  if (!trade.reinforced) return;
  let shown = 0;
  for (const lap of given.seams.sideLaps) {
    const [over, under] = [rectOf.get(lap.over), rectOf.get(lap.between.find((id) => id !== lap.over) ?? '')];
    const sheet = sheetOf.get(lap.over);
    if (!over || !under || !sheet) continue;
    const sameBand = bandOf.get(lap.between[0]) === bandOf.get(lap.between[1]);
    const edge = sameBand
      ? sheet.longEdges[over.v0 + over.v1 > under.v0 + under.v1 ? 0 : 1]
      : sheet.longEdges[lap.between[1] === lap.over ? 0 : 1];
    if (edge !== 'cut') continue;
    shown += lap.length;
    if (sheet.longEdges.includes('factory'))
      say(
        'cut-edge-shows',
        lap.from,
        [lap.id, lap.over],
        `The cut edge of sheet ${lap.over} lies on top in side lap ${lap.id} and its factory edge under. Turn the sheet round, or seal the edge.`,
      );
  }
  if (trade.strip === null) for (const lap of given.seams.endLaps) shown += lap.length;
  if (Math.abs(shown - given.seams.cutEdge) > 1)
    say(
      'cut-edge-unsealed',
      null,
      [],
      `${(shown / 1000).toFixed(2)} m of cut edge show and ${(given.seams.cutEdge / 1000).toFixed(2)} m are counted for sealing.`,
    );
}

/** Rows run across the flutes, or stand on a top flange. */
export function checkFlutes({ given }: Evidence, say: Say): void {
  const { deck } = given.roof;
  if (deck?.kind !== 'steel' || !given.rules.trade.inLap) return;
  if (deck.flutes === null) {
    say(
      'flutes-not-given',
      null,
      [],
      'The direction of the flutes is not given. Fastened courses run across them: draw it on the plan, or check it on site.',
    );
    return;
  }
  const turn = (deck.flutes * Math.PI) / 180;
  const [alongX, alongY] = [Math.cos(turn), Math.sin(turn)];
  const rows = given.rows.length > 0 ? given.rows.filter((row) => row.where === 'lap') : given.seams.sideLaps;
  const stray = rows.filter(({ from, to }) => {
    const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
    const sine = Math.abs((to[0] - from[0]) * alongY - (to[1] - from[1]) * alongX);
    return length > TOLERANCE_MM && sine <= length * Math.sin((ALONG_DEG * Math.PI) / 180);
  });
  const [first] = stray;
  if (!first) return;
  const { pitch, flange, rib } = deck;
  if (!pitch || !flange || !rib) {
    say(
      'row-along-flutes',
      first.from,
      stray.map(({ id }) => id),
      `${stray.length} ${stray.length === 1 ? 'row runs' : 'rows run'} along the flutes. Each has to stand on a top flange and loads that rib alone: have the deck checked, or turn the courses.`,
    );
    return;
  }
  for (const row of stray) {
    const off = (row.from[0] - rib[0]) * -alongY + (row.from[1] - rib[1]) * alongX;
    const fromRib = Math.abs(off - Math.round(off / pitch) * pitch);
    if (fromRib > flange / 2 + TOLERANCE_MM)
      say(
        'row-off-flange',
        row.from,
        [row.id],
        `${row.id} runs along the flutes ${fromRib.toFixed(0)} mm from the middle of a top flange ${flange} mm wide. Shift it onto the flange.`,
      );
  }
}
