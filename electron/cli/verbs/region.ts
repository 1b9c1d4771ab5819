// The closed shape around a point of a plan.
import { signedArea } from '../../../core/geometry/ring';
import { hideLines } from '../../../core/plan/hiding';
import { buildPageIndex } from '../../../core/plan/pageIndex';
import { buildRegionIndex, DEFAULT_GAP, traceRegion } from '../../../core/plan/traceRegion';
import type { PagePoint } from '../../../core/geometry/points';
import { failed } from '../../../shared/errors/failure';
import { regionVerb } from '../../../shared/verbs/region';
import { nameOf } from '../input';
import { readPlanPage } from '../readPlanPage';
import type { VerbOutcome } from '../verbModule';
import type { Words } from '../words';

export const spec = regionVerb;

const WIDEST_GAP = 1000;

export async function run(words: Words): Promise<VerbOutcome> {
  const at = pointIn(words);
  if (!at) return { usage: '--at wants a point such as --at 612,396, in 1/72 inch from the lower left.' };
  const gap = gapIn(words);
  if (Number.isNaN(gap))
    return {
      usage: `--gap wants a number from 0 to ${WIDEST_GAP}, in 1/72 inch. Write for example --gap 4.`,
    };
  const read = await readPlanPage(words);
  if ('usage' in read || !read.ok) return read;
  const { layers, raster } = read.value;
  const named = typeof words.options.without === 'string' ? words.options.without.split(',') : [];
  const missing = named.find((name) => !layers.includes(name.trim()));
  if (missing !== undefined)
    return {
      usage: `there is no layer “${missing.trim()}”. Layers are: ${layers.filter(Boolean).join(', ')}.`,
    };
  const without = named.map((name) => layers.indexOf(name.trim()));
  const page = hideLines(buildPageIndex(read.value), { layers: without, widths: [] });
  const traced = traceRegion(buildRegionIndex(page), at, {
    gap,
    mode: words.options.outer ? 'outer' : 'shape',
  });
  if ('refusal' in traced) {
    const where = `${nameOf(words.input)}, at ${at[0]},${at[1]}`;
    if (raster)
      return failed('out-of-range', where, 'the page is a picture without lines', 'Trace it by hand');
    const [what = traced.refusal, ...todo] = traced.refusal.split(': ');
    const closes = traced.closesWith === undefined ? null : `It closes with --gap ${traced.closesWith}`;
    return failed('out-of-range', where, what, closes ?? (sentence(todo.join(': ')) || 'Pick another point'));
  }
  const { region } = traced;
  const area = [region.outline, ...region.openings].reduce((sum, ring) => sum + signedArea(ring), 0);
  return { ok: true, value: { document: { ...region, area }, status: 0 } };
}

function pointIn({ options }: Words): PagePoint | null {
  const match = /^(-?\d+(?:\.\d+)?),(-?\d+(?:\.\d+)?)$/.exec(String(options.at ?? '').replaceAll(' ', ''));
  return match ? [Number(match[1]), Number(match[2])] : null;
}

function gapIn({ options }: Words): number {
  if (options.gap === undefined) return DEFAULT_GAP;
  const gap = /^\d+(\.\d+)?$/.test(String(options.gap)) ? Number(options.gap) : NaN;
  return gap <= WIDEST_GAP ? gap : NaN;
}

function sentence(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
