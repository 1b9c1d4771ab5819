// Drawing scales: a ratio 1:N, its names in the trade, and millimetres on the roof per point on the page.
import { parseLength } from './lengths';
import type { Display } from './lengths';
import { formatNumber, parseNumber, plainText } from './numbers';

export interface NamedScale {
  readonly name: string;
  readonly ratio: number;
  readonly system: Display;
}

/** Ratios of ISO 5455, and the feet-and-inches scales of American practice: N = 12 / (inches per foot). */
export const NAMED_SCALES: readonly NamedScale[] = [
  ...[1, 2, 5, 10, 20, 50, 100, 200, 250, 500, 1000, 1250, 2500].map((ratio) => metric(ratio)),
  imperial(`3" = 1'-0"`, 4),
  imperial(`1 1/2" = 1'-0"`, 8),
  imperial(`1" = 1'-0"`, 12),
  imperial(`3/4" = 1'-0"`, 16),
  imperial(`1/2" = 1'-0"`, 24),
  imperial(`3/8" = 1'-0"`, 32),
  imperial(`1/4" = 1'-0"`, 48),
  imperial(`3/16" = 1'-0"`, 64),
  imperial(`1/8" = 1'-0"`, 96),
  imperial(`1" = 10'`, 120),
  imperial(`3/32" = 1'-0"`, 128),
  imperial(`1/16" = 1'-0"`, 192),
  imperial(`1" = 20'`, 240),
  imperial(`1" = 30'`, 360),
  imperial(`1" = 40'`, 480),
  imperial(`1" = 50'`, 600),
  imperial(`1" = 60'`, 720),
  imperial(`1" = 100'`, 1200),
];

/** A typed or printed scale: `1:100`, `1 : 100 @ A1`, `1/8" = 1'-0"`, `1" = 20'`. */
export function parseScale(text: string): { readonly ratio: number } | { readonly fault: string } {
  const plain = plainText(text)
    .replace(/^scale\b ?:? ?/i, '')
    .replace(/ ?(@|at|on) ?(iso |arch |ansi )?[a-e]\d?$/i, '');
  const ratio = plain.includes('=') ? readEquation(plain) : readRatio(plain);
  if (ratio === null)
    return { fault: `“${text.trim()}” is not a scale. Write 1:100, 1/8" = 1'-0" or 1" = 20'.` };
  if (!(ratio >= 0.01 && ratio <= 100_000))
    return { fault: `“${text.trim()}” is no scale that a plan is drawn at. Write one such as 1:100.` };
  return { ratio };
}

/** A scale as written on a sheet; on imperial jobs by its feet-and-inches name where it has one. */
export function formatScale(ratio: number, display: Display = 'metric'): string {
  const named = NAMED_SCALES.find((s) => s.system === display && Math.abs(s.ratio / ratio - 1) < 1e-6);
  if (named) return named.name;
  const decimals = Math.abs(ratio - Math.round(ratio)) < 1e-6 * ratio ? 0 : ratio < 10 ? 3 : 1;
  return `1 : ${formatNumber(ratio, decimals)}`;
}

/** A point is 1/72 inch (ISO 32000-1, 8.3.2.3). */
export const MM_PER_POINT = 25.4 / 72;

/** Millimetres on the roof per point on the page, at 1:ratio. */
export function mmPerPoint(ratio: number): number {
  return ratio * MM_PER_POINT;
}

/** The ratio behind a scale in millimetres per point. */
export function ratioOf(roofMmPerPoint: number): number {
  return roofMmPerPoint / MM_PER_POINT;
}

function metric(ratio: number): NamedScale {
  return { name: `1 : ${formatNumber(ratio)}`, ratio, system: 'metric' };
}

function imperial(name: string, ratio: number): NamedScale {
  return { name, ratio, system: 'imperial' };
}

function readEquation(plain: string): number | null {
  const [paper, real, more] = plain.split('=');
  if (paper === undefined || real === undefined || more !== undefined) return null;
  const onPaper = parseLength(withUnit(paper), 'metric');
  const onRoof = parseLength(withUnit(real), 'metric');
  if ('fault' in onPaper || 'fault' in onRoof || onPaper.mm === 0) return null;
  // 12 significant digits: 1/8" = 1'-0" is 96, whatever binary fractions make of it.
  return Number((onRoof.mm / onPaper.mm).toPrecision(12));
}

/** A side of an equation must carry its unit; an empty one cannot be read. */
function withUnit(side: string): string {
  return /['"a-z]/i.test(side) ? side : '';
}

function readRatio(plain: string): number | null {
  const pair = /^([\d., ]+?) ?[:/] ?([\d., ]+)$/.exec(plain);
  const paper = parseNumber(pair?.[1] ?? '');
  const real = parseNumber(
    (pair?.[2] ?? '').replace(/^(\d{1,3})((,\d{3})+)$/, (all) => all.replaceAll(',', '')),
  );
  if ('fault' in paper || 'fault' in real || paper.value === 0 || real.value === 0) return null;
  return real.value / paper.value;
}
