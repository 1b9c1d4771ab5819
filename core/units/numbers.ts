// Reading and writing plain numbers: fractions, decimal commas, grouped thousands.

/** Between groups of three digits: narrow and unbreakable, so that a figure never splits over two lines. */
export const THIN_SPACE = '\u202f';

/** Typed text with its look-alike characters made plain: primes, dashes, spaces, built-up fractions. */
export function plainText(text: string): string {
  let plain = text.trim();
  for (const [glyph, fraction] of Object.entries(FRACTIONS)) plain = plain.replaceAll(glyph, ` ${fraction}`);
  return plain
    .replace(/[\u00a0\u2000-\u200a\u202f\u205f]/g, ' ')
    .replace(/[\u2018\u2019\u2032\u00b4`]/g, "'")
    .replace(/[\u201c\u201d\u2033]|''/g, '"')
    .replace(/[\u2010-\u2015\u2212]/g, '-')
    .replace(/\u2044/g, '/')
    .replace(/\s+/g, ' ')
    .trim();
}

/** A number without a unit, or what is wrong with it: `3.81`, `3,81`, `3 810`, `6 1/2`, `1/2`. */
export function parseNumber(text: string): { readonly value: number } | { readonly fault: string } {
  const plain = plainText(text);
  const mixed = /^(?:(\d+)[ -])?(\d+)\/(\d+)$/.exec(plain);
  if (mixed) {
    const below = Number(mixed[3]);
    if (below === 0) return { fault: `${plain} divides by zero. Write a fraction such as 1/2.` };
    return { value: Number(mixed[1] ?? 0) + Number(mixed[2]) / below };
  }
  if (/^[1-9]\d{0,2}(,\d{3})+$/.test(plain))
    return {
      fault: `${plain} can be read two ways. Write ${plain.replaceAll(',', '')} or ${plain.replace(',', '.')}.`,
    };
  const joined = /^\d{1,3}( \d{3})+([.,]\d*)?$/.test(plain) ? plain.replaceAll(' ', '') : plain;
  if (!/^(\d+([.,]\d*)?|[.,]\d+)$/.test(joined)) return { fault: `“${text.trim()}” is not a number.` };
  return { value: Number(joined.replace(',', '.')) };
}

/** A number with its thousands set apart and a fixed count of decimals; never “-0”. */
export function formatNumber(value: number, decimals = 0): string {
  const [whole = '', part] = Math.abs(value).toFixed(decimals).split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, THIN_SPACE);
  const digits = part === undefined ? grouped : `${grouped}.${part}`;
  return value < 0 && Number(value.toFixed(decimals)) !== 0 ? `\u2212${digits}` : digits;
}

const FRACTIONS: Readonly<Record<string, string>> = {
  '\u00bd': '1/2',
  '\u00bc': '1/4',
  '\u00be': '3/4',
  '\u215b': '1/8',
  '\u215c': '3/8',
  '\u215d': '5/8',
  '\u215e': '7/8',
  '\u2153': '1/3',
  '\u2154': '2/3',
};
