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
