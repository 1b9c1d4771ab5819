// Planning: a large roof's welds and days, and what a course moved to another day costs.
import { SHIPPED_RATES } from '../../core/rates/shipped';
import { orderWork } from '../../core/welding/orderWork';
import { planWelds } from '../../core/welding/planWelds';
import { planWork } from '../../core/welding/planWork';
import { busyRoof } from '../support/roofs';
import { weldRules, workInput, workRules } from '../support/welding';
import { ms, timeByTurns, type Row } from './measure';

export function benchWelding(quick: boolean): Row[] {
  const input = workInput(busyRoof(3, 100_000e6, 200, 100));
  const laps = input.seams.sideLaps.length + input.seams.endLaps.length;
  const rules = workRules(SHIPPED_RATES, {
    calendar: { start: '2026-03-02', weekdays: [1, 2, 3, 4, 5], lost: [] },
  });
  const [a, , c] = input.layout.sheets[Math.floor(input.layout.sheets.length / 2)]?.corners ?? [];
  const at = [((a?.[0] ?? 0) + (c?.[0] ?? 0)) / 2, ((a?.[1] ?? 0) + (c?.[1] ?? 0)) / 2] as const;
  const anew = () => orderWork([input], planWelds([input], weldRules(SHIPPED_RATES)), rules);
  const work = anew();
  const moved = [{ roof: input.roof.id, at, day: 60 }];
  const [whole, again] = timeByTurns(
    [() => planWork(anew(), []), () => planWork(work, moved)],
    quick ? 5 : 15,
  ) as [ReturnType<typeof timeByTurns>[number], ReturnType<typeof timeByTurns>[number]];
  return [
    {
      name: `welds and days of 100,000 m², ${laps} seams`,
      figure: ms(whole),
    },
    {
      name: 'the same after a course was moved',
      figure: ms(again),
      ratio: { value: whole.median / again.median, atLeast: 2, against: 'planning it anew' },
    },
  ];
}
