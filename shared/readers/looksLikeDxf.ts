// Tells a DXF by its first bytes, without the parser.

/** The first bytes of the binary form, as the format sets them down. */
export const BINARY_DXF = 'AutoCAD Binary DXF';

/** Whether bytes begin as a DXF in text does: a section, after comments at most; or as one in binary form. */
export function looksLikeDxf(bytes: Uint8Array): boolean {
  const start = new TextDecoder('latin1').decode(bytes.subarray(0, 4096));
  return (
    start.startsWith(BINARY_DXF) ||
    /^\s*(999\r?\n[^\n]*\n\s*)*0\s*\r?\n\s*SECTION\b/.test(start.replace(/^\u00ef\u00bb\u00bf/, ''))
  );
}
