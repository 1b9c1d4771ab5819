// The texts of a DXF drawing as base lines: control codes resolved, paragraphs apart, anchors turned into a start.
import type { IMtextEntity, ITextEntity } from 'dxf-parser';
import type { PageText } from '../../core/plan/types';

export function readPlainText({
  text,
  startPoint,
  textHeight,
  rotation,
  xScale,
}: ITextEntity): PageText | null {
  const plain = withoutCodes(text ?? '');
  if (plain === '' || !startPoint || !(textHeight > 0)) return null;
  return {
    text: plain,
    at: [startPoint.x, startPoint.y],
    height: textHeight,
    width: widthOf(plain, textHeight) * (xScale || 1),
    angle: rotation ?? 0,
  };
}

export function readMtext(entity: IMtextEntity): PageText[] {
  const { text, position, height, rotation, directionVector, attachmentPoint } = entity;
  if (!position || !(height > 0)) return [];
  const angle = directionVector
    ? (Math.atan2(directionVector.y, directionVector.x) * 180) / Math.PI
    : (rotation ?? 0);
  const turn = (angle * Math.PI) / 180;
  const lines = paragraphs(text ?? '');
  // 1 to 9: from the upper left, row by row.
  const anchor = (attachmentPoint >= 1 && attachmentPoint <= 9 ? attachmentPoint : 1) - 1;
  const total = height + (lines.length - 1) * LEADING * height;
  const top = [0, total / 2, total][Math.floor(anchor / 3)] ?? 0;
  return lines.flatMap((line, k) => {
    if (line === '') return [];
    const width = widthOf(line, height);
    const along = -(anchor % 3) * (width / 2);
    const up = top - height - k * LEADING * height;
    return [
      {
        text: line,
        at: [
          position.x + along * Math.cos(turn) - up * Math.sin(turn),
          position.y + along * Math.sin(turn) + up * Math.cos(turn),
        ] as const,
        height,
        width,
        angle,
      },
    ];
  });
}

const LEADING = 5 / 3;
/** A character's share of the text's height, on average: the file does not carry the font. */
const CHARACTER = 0.75;

function widthOf(text: string, height: number): number {
  return CHARACTER * height * text.length;
}

function paragraphs(text: string): string[] {
  return text
    .replace(/\\S([^;^#/]*)[\^#/]([^;]*);/g, ' $1/$2')
    .split(/\\P|\n/)
    .map((line) =>
      withoutCodes(line.replace(/\\[ACcFfHLlOoKkQTWp][^;\\{}]*;|\\[LlOoKk]/g, '').replace(/\\~/g, ' ')),
    );
}

function withoutCodes(text: string): string {
  return text
    .replace(/%%d/gi, '°')
    .replace(/%%c/gi, 'Ø')
    .replace(/%%p/gi, '±')
    .replace(/%%[uok]/gi, '')
    .replace(/\\U\+([0-9a-f]{4})/gi, (_, code: string) => String.fromCharCode(parseInt(code, 16)))
    .replace(/[{}]/g, '')
    .replace(/\s+/g, ' ')
    .trim();
}
