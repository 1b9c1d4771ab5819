// In: the text of a note. Out: the length it states if it is a dimension and nothing else: with its unit where one is
// written, and as a bare number where the sheet's own unit decides. Promise: levels, radii, marks and ratios are none.
import { parseLength } from '../units/lengths';
import { plainText } from '../units/numbers';

export type DimensionText =
  | { readonly kind: 'stated'; readonly mm: number }
  | { readonly kind: 'whole' | 'decimal'; readonly value: number };

export function readDimensionText(text: string): DimensionText | null {
  const plain = withoutWords(oneLength(plainText(text)));
  if (!/^[\d.'"]/.test(plain) || plain.length > LONGEST_TEXT) return null;
  const half = HALF.exec(plain);
  if (half) {
    const [, whole = '', raised = ''] = half;
    const tenths = RAISED.indexOf(raised);
    if (/^\d+$/.test(whole)) return { kind: 'whole', value: Number(whole) + tenths / 10 };
    return { kind: 'decimal', value: Number(`${whole.replace(',', '.')}${tenths}`) };
  }
  const grouped = /^\d{1,3}([,']\d{3})+$/.test(plain) ? plain.replace(/[,']/g, '') : plain;
  if (/^(\d{1,3}( \d{3})+|\d+)$/.test(grouped)) {
    const value = Number(grouped.replaceAll(' ', ''));
    return value >= LEAST_WHOLE ? { kind: 'whole', value } : null;
  }
  if (/^\d{1,4}[.,]\d{1,3}$/.test(grouped)) {
    const value = Number(grouped.replace(',', '.'));
    return value > 0 ? { kind: 'decimal', value } : null;
  }
  if (!UNIT.test(grouped)) return null;
  const parsed = parseLength(grouped, 'imperial');
  return 'mm' in parsed && parsed.mm > 0 ? { kind: 'stated', mm: parsed.mm } : null;
}

/** Of two units side by side, such as 3810 [12'-6"], the first; of a sum, such as 5 @ 1200 = 6000, what it comes to. */
function oneLength(plain: string): string {
  const sides = plain.split('=').map((side) => side.trim());
  const whole = sides.length === 2 ? (sides.find((side) => !/[@x×]/i.test(side)) ?? plain) : plain;
  return whole.replace(/^(\d.*?) ?[[(][^[(]*\d[^[(]*[\])]$/, '$1').replace(/^[[(](.*)[\])]$/, '$1');
}

/** What a drafter adds to a length: the same elsewhere, for reference, clear, nominal, overall, about, on centres, to
 * be verified or held, and from which face. */
const WORDS =
  '(?:typ|ref|clr|clear|nom|min|max|approx|about|ca|o/a|overall|c/c|c-c|o\\.? ?c|eq|hold|v\\.?i\\.?f|n\\.?i\\.?c|f/f|f\\.?o\\.?[sfmc]|field verify)';
const SIGNS = '(?:\\(?(?:±|\\+ ?/ ?-)\\)?|~|≈)';
const BEFORE = new RegExp(`^(?:${WORDS}\\b\\.?|${SIGNS}) ?`, 'i');
const AFTER = new RegExp(` ?(?:\\(?\\b${WORDS}\\b\\.?\\)?|${SIGNS})$`, 'i');

function withoutWords(plain: string): string {
  const less = plain.replace(BEFORE, '').replace(AFTER, '').trim();
  return less === plain ? plain : withoutWords(less);
}

/** Behind whole centimetres, or metres to the centimetre, raised figures are millimetres. */
const RAISED = '⁰¹²³⁴⁵⁶⁷⁸⁹';
const HALF = new RegExp(`^(\\d{1,3}|\\d{1,3}[.,]\\d{2})([${RAISED}])$`);

const UNIT = /['"]|\d ?(mm|cm|m|ft|in|feet|inch(es)?)$/i;
const LONGEST_TEXT = 24;
/** Smaller whole numbers are grid marks, counts and item numbers far more often than dimensions. */
const LEAST_WHOLE = 10;
