// In: one roof's results, rates and what a person confirmed. Out: its figures, each with unit, formula in words and
// the ids it came from; and the figures of the whole job as sums of them. Promise: the only maker of quantities;
// sums of parts are wholes exactly, and bought = roof + laps + trimmed + offcut.
import type { WeldPlan, WorkPlan } from '../welding/types';
import { hourFigures } from './hourFigures';
import { make, say, type Measured, type MeasureRules } from './make';
import { partFigures } from './partFigures';
import { membraneFigures, roofFigures } from './roofFigures';
import type { Quantities, Quantity } from './types';
import { weldFigures } from './weldFigures';

export function measureRoof(measured: Measured, rules: MeasureRules): Quantities {
  return [
    ...roofFigures(measured),
    ...membraneFigures(measured, rules),
    ...weldFigures(measured),
    ...partFigures(measured, rules),
    ...hourFigures(measured, rules),
  ];
}

/** The job's figures: each key summed over the roofs. Percentages and days are taken anew from the sums. */
export function measureJob(
  byRoof: readonly { readonly letter: string; readonly quantities: Quantities }[],
  plan: WeldPlan,
  work: WorkPlan,
): Quantities {
  const [first] = byRoof;
  if (!first) return [];
  const many = byRoof.length > 1;
  const keys = [...new Set(byRoof.flatMap((roof) => roof.quantities.map((q) => q.key)))];
  const sums = keys.map((key): Quantity => {
    const found = byRoof.flatMap(({ letter, quantities }) =>
      quantities.filter((q) => q.key === key).map((q) => ({ letter, q })),
    );
    const { q } = found[0] as { q: Quantity };
    if (!many) return q;
    return {
      ...q,
      value: found.reduce((sum, f) => sum + f.q.value, 0),
      formula: found
        .map((f) => `${f.letter}: ${say(f.q.value, q.unit === 'pieces' || q.unit === 'rolls' ? 0 : 2)}`)
        .join(' + '),
      from: found.flatMap((f) => f.q.from),
      assumed: found.map((f) => f.q.assumed).find((a) => a !== null) ?? null,
    };
  });
  const value = (key: string) => sums.find((q) => q.key === key)?.value ?? 0;
  const waste = value('area.offcut') - value('area.reused') + value('area.trimmed');
  const anew: Readonly<Record<string, Pick<Quantity, 'value' | 'formula'>>> = {
    'waste.percent': {
      value: (100 * waste) / value('area.bought'),
      formula: `${say(waste)} m² offcuts and trimmings that go into no flashing ÷ ${say(value('area.bought'))} m² bought`,
    },
  };
  // Two roofs may share a day, so the job's days are the plan's own.
  const days = {
    value: work.days.length,
    formula: `days of the weld plan; ${work.leastDays} is the least, all work ÷ what a day holds`,
  };
  return [
    ...sums.map((q) => {
      if (q.key === 'days') return { ...q, ...days };
      return many && anew[q.key] ? { ...q, ...anew[q.key] } : q;
    }),
    make(
      'weld.runs',
      'Weld runs',
      plan.runs.length,
      'pieces',
      'in the order of laying',
      plan.runs.map((run) => run.id),
    ),
  ];
}
