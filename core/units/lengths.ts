// Lengths: what a person types in metres, millimetres or feet and inches, in and out of millimetres.
import { formatNumber, parseNumber, plainText } from './numbers';

export type Display = 'metric' | 'imperial';

export const MM_PER_INCH = 25.4;
export const MM_PER_FOOT = 304.8;
/** More than any roof; a typed length above it is a slip of the finger. */
const LONGEST_MM = 1e8;

export type ParsedLength = { readonly mm: number } | { readonly fault: string };

/** A typed length. A bare number is millimetres in metric display and feet in imperial display. */
export function parseLength(text: string, display: Display): ParsedLength {
  const plain = plainText(text).toLowerCase();
  if (plain === '') return { fault: `Nothing is typed. ${howToWrite(display)}` };
  if (plain.startsWith('-'))
    return { fault: `${plain} is negative. A length is zero or more: write it without the minus.` };
  if (!/\d/.test(plain)) return { fault: `“${text.trim()}” has no number. ${howToWrite(display)}` };
  const parsed = parseMetric(plain) ?? parseFeetAndInches(plain) ?? parseBare(plain, display);
  if (!parsed) return { fault: `“${text.trim()}” is not a length. ${howToWrite(display)}` };
  if ('fault' in parsed) return parsed;
  if (!(parsed.mm <= LONGEST_MM))
    return { fault: `“${text.trim()}” is longer than 100 km. Check the unit. ${howToWrite(display)}` };
  return { mm: Math.round(parsed.mm * 1e6) / 1e6 };
}

/** Millimetres on metric jobs, feet and inches to the sixteenth on imperial ones. */
export function formatLength(mm: number, display: Display): string {
  if (display === 'metric') {
    const decimals = Math.abs(mm) < 10 && Math.abs(mm - Math.round(mm)) > 0.049 ? 1 : 0;
    return `${formatNumber(mm, decimals)} mm`;
  }
  const sixteenths = Math.round((Math.abs(mm) / MM_PER_INCH) * 16);
  const feet = Math.floor(sixteenths / 192);
  const inches = Math.floor((sixteenths % 192) / 16);
  const sign = mm < 0 && sixteenths > 0 ? '\u2212' : '';
  const part = fractionOf(sixteenths % 16);
  const tail = `${[inches > 0 || feet > 0 || part === '' ? String(inches) : '', part].filter(Boolean).join(' ')}"`;
  if (feet === 0) return sign + tail;
  return `${sign}${formatNumber(feet)}'-${tail}`;
}

/** Running metres of a weld, an edge, a row: to the tenth, to the whole from a thousand up. */
export function formatMetres(metres: number, display: Display): string {
  return display === 'metric' ? `${tenths(metres)} m` : `${tenths((metres * 1000) / MM_PER_FOOT)} ft`;
}

/** An area given in mm²: to the tenth, to the whole from a thousand up. */
export function formatArea(mm2: number, display: Display): string {
  return display === 'metric'
    ? `${tenths(mm2 / 1e6)} m²`
    : `${tenths(mm2 / (MM_PER_FOOT * MM_PER_FOOT))} ft²`;
}

/** One decimal below a thousand, none above: no more digits than a plan supports. */
export function tenths(value: number): string {
  return formatNumber(value, Math.abs(value) < 999.95 ? 1 : 0);
}

function howToWrite(display: Display): string {
  return display === 'metric'
    ? `Write it as 3810, 3.81 m, 381 cm or 12'-6".`
    : `Write it as 12'-6 1/2", 12.5, 6 1/2" or 3.81 m.`;
}

const METRIC: Readonly<Record<string, number>> = {
  mm: 1,
  millimetre: 1,
  cm: 10,
  centimetre: 10,
  m: 1000,
  metre: 1000,
  meter: 1000,
  km: 1e6,
};

function parseMetric(plain: string): ParsedLength | null {
  const match = /^(.*?) ?(mm|cm|km|m|millimetres?|centimetres?|metres?|meters?)$/.exec(plain);
  if (!match) return null;
  const number = parseNumber(match[1] ?? '');
  if ('fault' in number) return number;
  const factor = METRIC[match[2] ?? ''] ?? METRIC[(match[2] ?? '').replace(/s$/, '')];
  return factor === undefined ? null : { mm: number.value * factor };
}

function parseFeetAndInches(plain: string): ParsedLength | null {
  const marked = plain
    .replace(/ ?\b(feet|foot)\b|(?<=[\d ])ft\.?(?![a-z])/g, "'")
    .replace(/ ?\b(inches|inch)\b|(?<=[\d ])in\.?(?![a-z])/g, '"');
  const match = /^(?:([^'"]*?) ?')? ?-? ?(?:([^'"]+?) ?"?)?$/.exec(marked);
  if (!match || !/['"]/.test(marked)) return null;
  const feetText = match[1];
  const inchText = match[2];
  if (feetText === undefined && inchText === undefined) return null;
  const feet = feetText === undefined ? { value: 0 } : parseNumber(feetText);
  if ('fault' in feet) return feet;
  const inches = inchText === undefined ? { value: 0 } : parseNumber(inchText);
  if ('fault' in inches) return inches;
  return joinFeetAndInches(feet.value, inches.value, feetText !== undefined && inchText !== undefined);
}

function joinFeetAndInches(feet: number, inches: number, both: boolean): ParsedLength {
  if (both && inches >= 12)
    return {
      fault: `${inches} inches after the feet are more than a foot. Write ${feet + Math.floor(inches / 12)}'-${inches % 12}" if that is meant.`,
    };
  if (both && !Number.isInteger(feet))
    return { fault: `${feet} feet already holds a part of a foot. Write whole feet before the inches.` };
  return { mm: feet * MM_PER_FOOT + inches * MM_PER_INCH };
}

function parseBare(plain: string, display: Display): ParsedLength | null {
  const dashed = /^(\d+) ?- ?(\d+(?:\.\d+)?(?: \d+\/\d+)?|\d+\/\d+)$/.exec(plain);
  if (dashed && display === 'imperial') {
    const inches = parseNumber(dashed[2] ?? '');
    return 'fault' in inches ? inches : joinFeetAndInches(Number(dashed[1]), inches.value, true);
  }
  if (dashed) return null;
  if (plain.includes('/')) return { fault: `${plain} can be feet or inches. Write ${plain}" or ${plain}'.` };
  const number = parseNumber(plain);
  if ('fault' in number) return /^[\d.,/ ]+$/.test(plain) ? number : null;
  return { mm: number.value * (display === 'metric' ? 1 : MM_PER_FOOT) };
}

function fractionOf(sixteenths: number): string {
  if (sixteenths === 0) return '';
  let above = sixteenths;
  let below = 16;
  while (above % 2 === 0) {
    above /= 2;
    below /= 2;
  }
  return `${above}/${below}`;
}
