// The few parts of an Office Open XML workbook (ECMA-376) that a price needs: cells of text, numbers and live
// formulas, written with fixed times so that the same job gives the same bytes. Text from outside is an inline
// string and can never act as a formula.
import { strToU8, zipSync, type Zippable } from 'fflate';

export type Cell =
  | { readonly text: string; readonly strong?: boolean }
  | { readonly number: number; readonly style?: 'money' | 'plain'; readonly strong?: boolean }
  | {
      readonly formula: string;
      readonly value: number;
      readonly style?: 'money' | 'plain';
      readonly strong?: boolean;
    }
  | null;

export interface Worksheet {
  readonly name: string;
  /** Column widths in characters. */
  readonly widths: readonly number[];
  readonly rows: readonly (readonly Cell[])[];
}

/** A local time without a zone gives the same bytes everywhere. */
const FIXED_TIME = '1980-01-02T00:00:00';

/** `minorDigits` of the currency decide how money is shown. */
export function writeWorkbook(sheets: readonly Worksheet[], minorDigits: number): Uint8Array {
  const files: Record<string, string> = {
    '[Content_Types].xml': contentTypes(sheets.length),
    '_rels/.rels': relations([['officeDocument', 'xl/workbook.xml']]),
    'xl/workbook.xml': workbook(sheets),
    'xl/_rels/workbook.xml.rels': relations([
      ...sheets.map((_, i) => ['worksheet', `worksheets/sheet${i + 1}.xml`] as const),
      ['styles', 'styles.xml'],
    ]),
    'xl/styles.xml': styles(minorDigits),
  };
  sheets.forEach((sheet, i) => (files[`xl/worksheets/sheet${i + 1}.xml`] = worksheet(sheet)));
  const parts: Zippable = {};
  for (const [name, text] of Object.entries(files))
    parts[name] = [strToU8(text), { level: 6, mtime: FIXED_TIME }];
  return zipSync(parts);
}

const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const RELATIONS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const PACKAGE = 'http://schemas.openxmlformats.org/package/2006';

function contentTypes(count: number): string {
  const part = (name: string, type: string) =>
    `<Override PartName="/xl/${name}" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.${type}+xml"/>`;
  const sheets = Array.from({ length: count }, (_, i) =>
    part(`worksheets/sheet${i + 1}.xml`, 'worksheet'),
  ).join('');
  return (
    `${HEAD}<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
    `<Default Extension="xml" ContentType="application/xml"/>${part('workbook.xml', 'sheet.main')}${sheets}${part('styles.xml', 'styles')}</Types>`
  );
}

function relations(list: readonly (readonly [type: string, target: string])[]): string {
  const rows = list.map(
    ([type, target], i) => `<Relationship Id="rId${i + 1}" Type="${RELATIONS}/${type}" Target="${target}"/>`,
  );
  return `${HEAD}<Relationships xmlns="${PACKAGE}/relationships">${rows.join('')}</Relationships>`;
}

function workbook(sheets: readonly Worksheet[]): string {
  const rows = sheets.map(
    ({ name }, i) => `<sheet name="${escaped(name)}" sheetId="${i + 1}" r:id="rId${i + 1}"/>`,
  );
  return `${HEAD}<workbook xmlns="${MAIN}" xmlns:r="${RELATIONS}"><sheets>${rows.join('')}</sheets><calcPr fullCalcOnLoad="1"/></workbook>`;
}

/** Cell formats in this order: plain, money, strong, strong money. */
function styles(minorDigits: number): string {
  const money = `#,##0${minorDigits > 0 ? `.${'0'.repeat(minorDigits)}` : ''}`;
  const format = (number: number, font: number) =>
    `<xf numFmtId="${number}" fontId="${font}" fillId="0" borderId="0" xfId="0" applyNumberFormat="1" applyFont="1"/>`;
  return (
    `${HEAD}<styleSheet xmlns="${MAIN}"><numFmts count="1"><numFmt numFmtId="164" formatCode="${money}"/></numFmts>` +
    '<fonts count="2"><font><sz val="10"/><name val="Calibri"/></font><font><b/><sz val="10"/><name val="Calibri"/></font></fonts>' +
    '<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>' +
    '<borders count="1"><border/></borders><cellStyleXfs count="1"><xf/></cellStyleXfs>' +
    `<cellXfs count="4">${format(0, 0)}${format(164, 0)}${format(0, 1)}${format(164, 1)}</cellXfs></styleSheet>`
  );
}

function worksheet({ widths, rows }: Worksheet): string {
  const columns = widths
    .map((width, i) => `<col min="${i + 1}" max="${i + 1}" width="${width}" customWidth="1"/>`)
    .join('');
  const body = rows.map(
    (row, r) =>
      `<row r="${r + 1}">${row.map((cell, c) => cellXml(cell, `${columnName(c)}${r + 1}`)).join('')}</row>`,
  );
  return `${HEAD}<worksheet xmlns="${MAIN}"><cols>${columns}</cols><sheetData>${body.join('')}</sheetData></worksheet>`;
}

function cellXml(cell: Cell, at: string): string {
  if (cell === null) return '';
  const money = 'style' in cell && cell.style === 'money' ? 1 : 0;
  const style = money + (cell.strong ? 2 : 0);
  if ('text' in cell)
    return `<c r="${at}" s="${style}" t="inlineStr"><is><t xml:space="preserve">${escaped(cell.text)}</t></is></c>`;
  if ('formula' in cell)
    return `<c r="${at}" s="${style}"><f>${escaped(cell.formula)}</f><v>${cell.value}</v></c>`;
  return `<c r="${at}" s="${style}"><v>${cell.number}</v></c>`;
}

export function columnName(index: number): string {
  const letter = String.fromCharCode(65 + (index % 26));
  return index < 26 ? letter : `${columnName(Math.floor(index / 26) - 1)}${letter}`;
}

/** XML knows no control characters but tab and line ends; they are dropped. */
function escaped(text: string): string {
  const kept = [...text].filter((c) => c >= ' ' || c === '\t' || c === '\n').join('');
  return kept
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}
