// The one place where a figure becomes text: every ledger, rail and pack writes its numbers through here.
import { formatArea, formatLength, formatMetres, tenths } from './lengths';
import type { Display } from './lengths';
import { formatNumber } from './numbers';

export type FigureUnit = 'mm' | 'm' | 'm2' | 'kg' | 'h' | 'min' | '%' | 'pieces' | 'rolls' | 'litres';

/** A value in its own unit (areas in m², masses in kg) as text with the unit that the display uses. */
export function formatQuantity(value: number, unit: FigureUnit, display: Display): string {
  switch (unit) {
    case 'mm':
      return formatLength(value, display);
    case 'm':
      return formatMetres(value, display);
    case 'm2':
      return formatArea(value * 1e6, display);
    case 'kg':
      return display === 'metric' ? `${mass(value)} kg` : `${mass(value * POUNDS_PER_KG)} lb`;
    case 'litres':
      return display === 'metric' ? `${tenths(value)} l` : `${tenths(value / LITRES_PER_GALLON)} gal`;
    case 'h':
      return `${tenths(value)} h`;
    case 'min':
      return `${formatNumber(value, Math.abs(value) < 9.95 ? 1 : 0)} min`;
    case '%':
      return `${formatNumber(value, 1)} %`;
    case 'rolls':
      return `${count(value)} ${value === 1 ? 'roll' : 'rolls'}`;
    case 'pieces':
      return count(value);
  }
}

/** Decimals of a figure in a table that another program reads: lengths to the tenth of a millimetre that the layout is
 * made on, the rest to what anyone could measure or buy. */
const DECIMALS: Readonly<Record<FigureUnit | 'm/min', number>> = {
  mm: 1,
  m: 4,
  m2: 2,
  kg: 1,
  h: 2,
  min: 2,
  'm/min': 2,
  '%': 1,
  pieces: 0,
  rolls: 2,
  litres: 1,
};

/** A value rounded to what its unit means, for a table that another program reads: no thousands, no unit. */
export function plainFigure(value: number, unit: FigureUnit | 'm/min'): number {
  return Number(value.toFixed(DECIMALS[unit]));
}

/** A decimal string such as "148310.40" with its thousands set apart; the digits are not touched. */
export function formatMoney(amount: string): string {
  const negative = amount.startsWith('-');
  const [whole = '', part] = amount.replace(/^-/, '').split('.');
  const grouped = formatNumber(Number(whole));
  return `${negative ? '\u2212' : ''}${part === undefined ? grouped : `${grouped}.${part}`}`;
}

/** NIST SP 811, Appendix B: 1 lb = 0.453 592 37 kg, 1 US gal = 3.785 411 784 l, both exact. */
const POUNDS_PER_KG = 1 / 0.45359237;
const LITRES_PER_GALLON = 3.785411784;

function mass(value: number): string {
  return formatNumber(value, Math.abs(value) < 9.95 ? 1 : 0);
}

function count(value: number): string {
  return Number.isInteger(value) ? formatNumber(value) : tenths(value);
}
