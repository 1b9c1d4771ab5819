// Angles in degrees counter-clockwise from +x, and falls as rise over run.
import { formatNumber, parseNumber, plainText } from './numbers';

/** A typed angle, brought into [0, 360). */
export function parseAngle(text: string): { readonly degrees: number } | { readonly fault: string } {
  const plain = plainText(text)
    .replace(/ ?(°|deg|degrees?)$/i, '')
    .trim();
  const negative = plain.startsWith('-');
  const number = parseNumber(negative ? plain.slice(1) : plain);
  if ('fault' in number)
    return { fault: `“${text.trim()}” is not an angle. Write degrees such as 90 or 12.5°.` };
  return { degrees: turn(negative ? -number.value : number.value) };
}

/** Degrees to at most two decimals, without trailing zeros. */
export function formatAngle(degrees: number): string {
  return `${trimmed(degrees)}°`;
}

/** Brings an angle into [0, around): 360 for a heading, 180 for a laying direction. */
export function turn(degrees: number, around = 360): number {
  const turned = degrees % around;
  const positive = turned < 0 ? turned + around : turned;
  return positive === around || Object.is(positive, -0) ? 0 : positive;
}

export function toRadians(degrees: number): number {
  return (degrees * Math.PI) / 180;
}

export function toDegrees(radians: number): number {
  return (radians * 180) / Math.PI;
}

/** A typed fall: `1:80`, `1/4:12`, `1/4" per foot`, `1.25 %`, `0.7°`. Rise over run. */
export function parseFall(text: string): { readonly ratio: number } | { readonly fault: string } {
  const fault = { fault: `“${text.trim()}” is not a fall. Write 1:80, 1.25 %, 1/4:12 or 0.7°.` };
  const plain = plainText(text).toLowerCase();
  const ratio = readFall(plain);
  if (ratio === null || !Number.isFinite(ratio)) return fault;
  if (ratio <= 0) return { fault: `“${text.trim()}” is level. Leave the fall empty where there is none.` };
  if (ratio > 1)
    return { fault: `“${text.trim()}” is steeper than 45°. A membrane roof of this kind is nearly level.` };
  return { ratio };
}

/** A fall as the trade writes it: 1 : 80, or per foot on imperial jobs. */
export function formatFall(ratio: number, display: 'metric' | 'imperial'): string {
  return display === 'metric' ? `1 : ${trimmed(1 / ratio)}` : `${trimmed(ratio * 12)} : 12`;
}

/** Length on the slope over length in plan. */
export function slopeFactor(ratio: number): number {
  return Math.sqrt(1 + ratio * ratio);
}

function readFall(plain: string): number | null {
  const percent = /^(.+?) ?%$/.exec(plain);
  if (percent) return scaled(percent[1], 1 / 100);
  const degrees = /^(.+?) ?(?:°|deg|degrees?)$/.exec(plain);
  if (degrees) {
    const angle = scaled(degrees[1], 1);
    return angle === null ? null : Math.tan(toRadians(angle));
  }
  const perFoot = /^(.+?) ?(?:"|in) ?(?:per|\/|in) ?(?:1 ?)?(?:foot|ft|')$/.exec(plain);
  if (perFoot) return scaled(perFoot[1], 1 / 12);
  const pair = /^(.+?) ?(?::| in ) ?(.+)$/.exec(plain);
  if (!pair) return null;
  const rise = scaled(pair[1], 1);
  const run = scaled(pair[2], 1);
  return rise === null || run === null ? null : rise / run;
}

function scaled(text: string | undefined, by: number): number | null {
  const number = parseNumber(text ?? '');
  return 'fault' in number ? null : number.value * by;
}

function trimmed(value: number): string {
  const text = formatNumber(value, 2);
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}
