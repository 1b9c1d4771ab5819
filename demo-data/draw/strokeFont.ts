// Lettering made of strokes on a grid 4 wide and 6 high, for the scan: capitals, figures and a few signs.
import type { Place } from './ink';

/** Strokes of a text, in heights of a capital; x runs on from 0. */
export function lettering(text: string): {
  readonly strokes: readonly (readonly Place[])[];
  readonly width: number;
} {
  const strokes: Place[][] = [];
  let x = 0;
  for (const sign of text.toUpperCase()) {
    for (const stroke of (GLYPHS[sign] ?? '').split(' ').filter(Boolean)) {
      const points: Place[] = [];
      for (let k = 0; k + 1 < stroke.length; k += 2)
        points.push([x + (SLIM * Number(stroke[k])) / 6, Number(stroke[k + 1]) / 6]);
      strokes.push(points);
    }
    x += sign === ' ' || NARROW.includes(sign) ? 2.7 / 6 : 4.7 / 6;
  }
  return { strokes, width: Math.max(0, x - 1.3 / 6) };
}

const SLIM = 0.86;
const NARROW = `.,:'"I`;

/** Pairs of figures are points, spaces part the strokes. */
const GLYPHS: Readonly<Record<string, string>> = {
  A: '002640 1232',
  B: '00063645443303 3342413000',
  C: '4536160501103041',
  D: '00062645412000',
  E: '40000646 0333',
  F: '000646 0333',
  G: '45361605011030414323',
  H: '0006 4046 0343',
  I: '1016',
  J: '4641301001',
  K: '0006 460340',
  L: '060040',
  M: '0006234640',
  N: '00064046',
  O: '100105163645413010',
  P: '00063645443303',
  Q: '100105163645413010 2240',
  R: '00063645443303 2340',
  S: '453616050413334241301001',
  T: '0646 2620',
  U: '060110304146',
  V: '062046',
  W: '0610233046',
  X: '0046 0640',
  Y: '062346 2320',
  Z: '06460040',
  '0': '100105163645413010',
  '1': '152620 1030',
  '2': '05163645440040',
  '3': '0516364544334241301001 1333',
  '4': '30360242',
  '5': '460604344341301001',
  '6': '453616050110304142331302',
  '7': '064610',
  '8': '13040516364544334241301001021333',
  '9': '10304145361605041343',
  '.': '1011',
  ',': '1100',
  ':': '1112 1415',
  '-': '1333',
  '+': '1333 2224',
  '/': '0046',
  '=': '1232 1434',
  '"': '0604 2624',
  "'": '1614',
  '@': '321213243432413010010516364542',
  '(': '36252130',
  ')': '16252110',
  '&': '4004051625240201103042',
};
