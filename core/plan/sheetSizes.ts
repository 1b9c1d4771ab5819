// Sheets of the A series, and notes that name the one that their scale holds for.

/** ISO 216, mm: the short side and the long one. */
export const SHEET_SIZES: Readonly<Record<string, readonly [short: number, long: number]>> = {
  A0: [841, 1189],
  A1: [594, 841],
  A2: [420, 594],
  A3: [297, 420],
  A4: [210, 297],
};

/** Beside a scale, the sheet that it holds for: @ A1, on A3, (A2). */
export const FOR_SHEET = String.raw`(?:@|\bat|\bon|\()\s*(?:iso\s*)?(A[0-4])\b`;

/** In points. */
export interface SheetSize {
  readonly width: number;
  readonly height: number;
}

export interface OtherSheet {
  /** The sheet that a note holds for. */
  readonly name: string;
  /** Sides of that sheet over those of the page, which are in the same proportion. */
  readonly shrunk: number;
  /** The page is another sheet of the series, and nothing was cut off it. */
  readonly inSeries: boolean;
}

const NAMES_SHEET = new RegExp(FOR_SHEET, 'gi');
const SLACK = 0.02;

/** Where a note holds for one sheet and the page is another of the same shape; else null. */
export function otherSheet(text: string, page: SheetSize): OtherSheet | null {
  const names = [...text.matchAll(NAMES_SHEET)];
  // A note that names several sheets is read by the one that this page is.
  const name = names.length === 1 ? names[0]?.[1]?.toUpperCase() : undefined;
  const sheet = name === undefined ? undefined : SHEET_SIZES[name];
  if (name === undefined || !sheet) return null;
  const [short = 0, long = 0] = sidesOf(page);
  const byEye = sheet[1] / long;
  // Sheets of the series are √2 apart; their sides are rounded to the millimetre.
  const steps = 2 ** (Math.round(2 * Math.log2(byEye)) / 2);
  const inSeries = Math.abs(steps / byEye - 1) < SLACK;
  const shrunk = inSeries ? steps : byEye;
  const alike = Math.abs(sheet[0] / short / shrunk - 1) < SLACK;
  return alike && Math.abs(shrunk - 1) >= SLACK ? { name, shrunk, inSeries } : null;
}

/** mm, the short one first. */
export function sidesOf({ width, height }: SheetSize): readonly number[] {
  return [width, height].map((points) => (points * 25.4) / 72).sort((a, b) => a - b);
}
