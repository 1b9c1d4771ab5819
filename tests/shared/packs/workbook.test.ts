// The workbook's live formulas, calculated by a small evaluator of its own kind, give the program's figures; the
// drawing for others' programs holds what the layout holds.
import { strFromU8, unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { estimate } from '../../../core/job/estimate';
import { bidXlsx } from '../../../shared/packs/bidXlsx';
import { layoutDxf } from '../../../shared/packs/layoutDxf';
import { applyAll, smallJob } from '../../support/jobs';

const files = new Map<string, Uint8Array>();
const jobs = {
  markup: smallJob(),
  margin: applyAll(smallJob(), [
    { kind: 'setRate', path: ['profit'], value: { percent: 12, as: 'margin' } },
    { kind: 'setRate', path: ['taxPercent'], value: 19 },
    { kind: 'setAbout', fields: { client: '=1+1' } },
  ]),
};

/** Cells of a worksheet: formulas as text, numbers as numbers. */
function cellsOf(bytes: Uint8Array, sheet: number): Map<string, { formula?: string; value?: number }> {
  const xml = strFromU8(unzipSync(bytes)[`xl/worksheets/sheet${sheet}.xml`] as Uint8Array);
  const cells = new Map<string, { formula?: string; value?: number }>();
  for (const [, at, inner] of xml.matchAll(/<c r="([A-Z]+\d+)"[^>]*>(.*?)<\/c>/g)) {
    const formula = /<f>(.*?)<\/f>/.exec(inner as string)?.[1];
    const value = /<v>(.*?)<\/v>/.exec(inner as string)?.[1];
    cells.set(at as string, { ...(formula ? { formula } : {}), ...(value ? { value: Number(value) } : {}) });
  }
  return cells;
}

/** Sums, products, quotients and ROUND over cells: all that the workbook uses. */
function calculate(cells: ReadonlyMap<string, { formula?: string; value?: number }>, at: string): number {
  const cell = cells.get(at);
  if (!cell?.formula) return cell?.value ?? 0;
  const text = cell.formula;
  let k = 0;
  const sum = (): number => {
    let left = product();
    while (text[k] === '+' || text[k] === '-') left = text[k++] === '+' ? left + product() : left - product();
    return left;
  };
  const product = (): number => {
    let left = factor();
    while (text[k] === '*' || text[k] === '/') left = text[k++] === '*' ? left * factor() : left / factor();
    return left;
  };
  const factor = (): number => {
    if (text.startsWith('ROUND(', k)) {
      k += 6;
      const inner = sum();
      k++;
      const digits = sum();
      k++;
      return Math.round(inner * 10 ** digits + 1e-7) / 10 ** digits;
    }
    if (text[k] === '(') {
      k++;
      const inner = sum();
      k++;
      return inner;
    }
    const word = /^[A-Z]*[\d.]+/.exec(text.slice(k))?.[0] ?? '';
    k += word.length;
    return /^[A-Z]/.test(word) ? calculate(cells, word) : Number(word);
  };
  return sum();
}

describe.each(Object.entries(jobs))('the bid as a workbook, %s', (_name, job) => {
  const result = estimate(job);
  const bytes = bidXlsx({ job, estimate: result, files });
  it('adds up to the bid’s total by its own formulas', () => {
    const cells = cellsOf(bytes, 1);
    const formulas = [...cells].filter(([, cell]) => cell.formula);
    expect(formulas.length).toBeGreaterThan(result.bid.lines.length);
    for (const [at, cell] of formulas)
      expect(calculate(cells, at), at).toBeCloseTo(cell.value ?? Number.NaN, 2);
    const last = formulas[formulas.length - 1] as [string, unknown];
    expect(calculate(cells, last[0])).toBeCloseTo(Number(result.bid.total), 2);
  });
  it('gives the same bytes, and keeps text from outside as text', () => {
    expect(bidXlsx({ job, estimate: estimate(job), files })).toEqual(bytes);
    const xml = strFromU8(unzipSync(bytes)['xl/worksheets/sheet1.xml'] as Uint8Array);
    expect(xml).not.toMatch(/<f>[^<]*1\+1/);
  });
});

describe('the layout as DXF', () => {
  it('holds every sheet as a closed line on its layer, in millimetres', () => {
    const job = jobs.markup;
    const result = estimate(job);
    const lines = new TextDecoder().decode(layoutDxf({ job, estimate: result })).split(/\r?\n/);
    const entities = lines.filter((line, i) => line === 'LWPOLYLINE' && lines[i - 1]?.trim() === '0').length;
    const sheets = result.roofs[0]?.layout?.sheets.length ?? 0;
    expect(sheets).toBeGreaterThan(0);
    expect(entities).toBeGreaterThanOrEqual(sheets);
    expect(lines.filter((line) => line === 'SHEETS').length).toBeGreaterThanOrEqual(sheets);
    expect(lines[lines.indexOf('$INSUNITS') + 2]?.trim()).toBe('4');
    expect(layoutDxf({ job, estimate: estimate(job) })).toEqual(layoutDxf({ job, estimate: result }));
  });
});
