// In: the pieces of work of each day and the days made of them. Out: each roof's share of what the days themselves take.
// Promise: the shares of a day add up to the day.
import type { RoofDays, WorkDay } from './types';
import type { WorkPiece } from './workLoads';

/** A day on two roofs is shared by the work that each takes. */
export function roofShares(
  closed: readonly { readonly pieces: readonly WorkPiece[] }[],
  days: readonly WorkDay[],
): RoofDays[] {
  const roofs = new Map<string, { -readonly [K in keyof RoofDays]: RoofDays[K] }>();
  closed.forEach(({ pieces }, k) => {
    const day = days[k] as WorkDay;
    const minutes = (name: string) => day.tasks.find((task) => task.name === name)?.minutes ?? 0;
    const total = pieces.reduce((sum, piece) => sum + piece.total, 0);
    const shares = new Map<string, number>();
    for (const piece of pieces)
      shares.set(
        piece.roof,
        (shares.get(piece.roof) ?? 0) + (total > 0 ? piece.total / total : 1 / pieces.length),
      );
    for (const [roof, share] of shares) {
      const sum = roofs.get(roof) ?? {
        roof,
        days: 0,
        stripMinutes: 0,
        strips: 0,
        heatMinutes: 0,
        waitMinutes: 0,
        sealMinutes: 0,
        seal: 0,
        cutBack: 0,
      };
      roofs.set(roof, sum);
      sum.days += 1;
      sum.stripMinutes += share * minutes('Test strips');
      sum.strips += share * day.strips.length;
      sum.heatMinutes += share * minutes('Heating up and cooling');
      sum.waitMinutes += share * minutes('Waiting for sheets to lie');
      if (day.night?.roof !== roof) continue;
      sum.sealMinutes += minutes('Closing for the night');
      sum.seal += day.night.length;
      sum.cutBack += day.night.cutBack;
    }
  });
  return [...roofs.values()];
}
