// Text that the standard fonts can print. They hold the Windows Latin set (ISO 32000-1, annex D); what lies outside
// is written in other words where there are some, and else as a mark that the page explains.

export interface Printable {
  readonly text: string;
  /** Characters that could not be printed. */
  readonly lost: readonly string[];
}

export function printable(text: string): Printable {
  const lost: string[] = [];
  let out = '';
  for (const sign of text.normalize('NFC')) {
    if (isLatin(sign)) out += sign;
    else if (sign in INSTEAD) out += INSTEAD[sign];
    else {
      const plain = sign.normalize('NFD').replace(/\p{M}/gu, '');
      if (plain !== '' && [...plain].every(isLatin)) out += plain;
      else {
        lost.push(sign);
        out += '¤';
      }
    }
  }
  return { text: out, lost };
}

const WINDOWS_EXTRAS = '€‚ƒ„…†‡ˆ‰Š‹ŒŽ‘’“”•–—˜™š›œžŸ';

function isLatin(sign: string): boolean {
  const code = sign.codePointAt(0) ?? 0;
  return (code >= 32 && code < 127) || (code >= 160 && code < 256) || WINDOWS_EXTRAS.includes(sign);
}

const INSTEAD: Readonly<Record<string, string>> = {
  '\u202f': '\u00a0',
  '\u2009': '\u00a0',
  '\u2212': '–',
  '\u2010': '-',
  '\u2011': '-',
  '\u2032': "'",
  '\u2033': '"',
  '\u2265': '>=',
  '\u2264': '<=',
  '\u2248': '~',
  '\u2192': '->',
  '\u22c5': '·',
  '\u2044': '/',
  '\u2308': '',
  '\u2309': '',
  Ł: 'L',
  ł: 'l',
  Đ: 'D',
  đ: 'd',
  ı: 'i',
  '\t': ' ',
  '\n': ' ',
  '\r': ' ',
};
