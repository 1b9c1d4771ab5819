// Lists for a spreadsheet. Figures are rounded to what their unit means; text from outside can never act as a formula.
import Papa from 'papaparse';
import type { Estimate } from '../../core/job/result';
import { plainFigure } from '../../core/units/figures';

/** What is bought, in whole packs. */
export function orderCsv({ order }: Pick<Estimate, 'order'>): string {
  return table(
    [
      'Product',
      'Description',
      'Needed',
      'Unit',
      'Pack holds',
      'Pack',
      'Packs to order',
      'Mass kg',
      'Price of a pack',
      'How it was found',
      'Assumed',
    ],
    order.lines.map((line) => [
      line.product,
      line.description,
      plainFigure(line.need, line.unit),
      line.unit,
      line.packSize,
      line.packName,
      line.packs,
      line.mass === null ? 'not known' : plainFigure(line.mass, 'kg'),
      line.unitPrice,
      line.formula,
      line.assumed ?? '',
    ]),
  );
}

/** Per roll its cuts in order; the last sheet of a roll says what is left of it, and flashing strips out of that come
 * after it. */
export function cutListCsv({ roofs }: Pick<Estimate, 'roofs'>): string {
  return table(
    [
      'Roof',
      'Roll',
      'Product',
      'Cut',
      'Sheet',
      'Starts at mm',
      'Lane mm',
      'Length mm',
      'Left on the roll mm',
      'Length as drawn mm',
    ],
    roofs.flatMap((roof) =>
      (roof.layout?.cutList.rolls ?? []).flatMap((roll) => [
        ...roll.pieces.map((piece, k) => [
          roof.name,
          roll.id,
          roll.product,
          k + 1,
          piece.sheet,
          mm(piece.start),
          mm(piece.lane),
          mm(piece.length),
          k === roll.pieces.length - 1 ? mm(roll.offcut) : '',
          drawnLength(roof, piece.sheet),
        ]),
        ...outOfOffcut(roof, roll.id).map(({ said, start, lane, length }, k) => [
          roof.name,
          roll.id,
          roll.product,
          roll.pieces.length + k + 1,
          said,
          mm(start),
          mm(lane),
          mm(length),
          '',
          '',
        ]),
      ]),
    ),
  );
}

interface OffcutPiece {
  readonly said: string;
  readonly start: number;
  readonly lane: number;
  readonly length: number;
}

/** Flashing strips first, then patches. */
function outOfOffcut({ reused, cutPatches }: Estimate['roofs'][number], roll: string): OffcutPiece[] {
  const strips = reused
    .filter((strip) => strip.roll === roll)
    .map(({ edge, height, ...place }) => ({ ...place, said: `flashing ${edge} ${mm(height)} mm high` }));
  const patches = cutPatches.flatMap(({ id, kind, on, length, width, from }): OffcutPiece[] => {
    if (from?.roll !== roll) return [];
    const what = kind === 'target' ? `target sheet ${id} round ${on}` : `strip over ${id} in ${on}`;
    return [{ ...from, length, said: `${what} ${mm(width)} mm wide` }];
  });
  return [...strips, ...patches];
}

/** Of a sheet whose length changed when the roof was measured; empty for all others. */
function drawnLength({ refit }: Estimate['roofs'][number], sheet: string): number | string {
  const changed = refit?.changed.find((one) => one.sheet === sheet);
  return changed === undefined ? '' : changed.was === null ? 'new' : mm(changed.was);
}

/** Welds in the order of laying. */
export function weldsCsv({
  weldPlan,
  workPlan,
  roofs,
}: Pick<Estimate, 'weldPlan' | 'workPlan' | 'roofs'>): string {
  const days = new Map(workPlan.days.flatMap((day) => day.runs.map((run) => [run, day] as const)));
  const names = new Map(roofs.map((roof) => [roof.id, roof.name]));
  return table(
    [
      'Order',
      'Weld run',
      'Roof',
      'Kind',
      'Method',
      'Seam',
      'Course',
      'Length m',
      'Speed m/min',
      'Weld min',
      'Set-up min',
      'Walking min',
      'By hand at stops m',
      'Day',
      'Date',
      'All seams',
      'From x mm',
      'From y mm',
      'To x mm',
      'To y mm',
    ],
    weldPlan.runs.map((run) => [
      run.order,
      run.id,
      names.get(run.roof) ?? run.roof,
      run.kind,
      run.method,
      run.seam,
      run.course ?? '',
      plainFigure(run.length / 1000, 'm'),
      plainFigure(run.speed, 'm/min'),
      minutes(run.weldMinutes),
      minutes(run.setupMinutes),
      minutes(run.walkMinutes),
      plainFigure(run.byHand / 1000, 'm'),
      days.get(run.id)?.number ?? '',
      days.get(run.id)?.date ?? '',
      run.seams.join(' '),
      mm(run.from[0]),
      mm(run.from[1]),
      mm(run.to[0]),
      mm(run.to[1]),
    ]),
  );
}

const mm = (value: number) => plainFigure(value, 'mm');
const minutes = (value: number) => plainFigure(value, 'min');

/** A byte-order mark, so that a spreadsheet reads m² and not noise. */
const BYTE_ORDER_MARK = '\ufeff';

/** A cell that begins so would be run by a spreadsheet; it is written with an apostrophe before it. */
const FORMULA = /^\s*[=+\-@\t\r\n]/;

function table(head: readonly string[], rows: readonly (readonly (string | number)[])[]): string {
  const text = Papa.unparse([[...head], ...rows.map((row) => [...row])], {
    newline: '\r\n',
    escapeFormulae: FORMULA,
  });
  return `${BYTE_ORDER_MARK}${text}\r\n`;
}
