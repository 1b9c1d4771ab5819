// In: the work in its order and the courses that a person moved. Out: the days, what stands against them, and how near
// they are to the fewest possible. Promise: what a person moved or chose is followed where the work
// allows it, and what it breaks is said.
import type { RoofPoint } from '../geometry/points';
import { toFrame } from '../sheets/frame';
import type { Layout, Sheet } from '../sheets/types';
import type { Finding } from '../verify/types';
import type { OrderedWork } from './orderWork';
import { planDays, type DayPlan, type MovedCourse } from './planDays';
import { courseName } from './sequence';
import { meansFindings, siteFindings } from './siteFindings';
import type { WorkPlan } from './types';
import { plannedDewPoint, weatherFindings } from './weatherFindings';
import type { OrderedInput } from './workLoads';

/** Keeps its place on the roof; which course lies there is found anew. */
export interface MovedPlace {
  readonly roof: string;
  readonly at: RoofPoint;
  readonly day: number;
}

const METHOD =
  'The order of work is fixed: roof by roof, sheet by sheet, each with its welds and details; whichever machine is free first takes the next lap. Days are filled in that order as far as they go, which for this order is the fewest. The least holds for any order: every lap by the fastest machine, no walking, no waiting, nothing to close for the night.';

export function planWork(work: OrderedWork, places: readonly MovedPlace[]): WorkPlan {
  const { inputs, rules, supply, least, unmoved } = work;
  const { moved, lost } = findMoved(inputs, places);
  const days = moved.length > 0 ? planDays(work.pieces, work.dayRules, moved, unmoved) : unmoved;
  const lastDay = ({ days: all }: DayPlan) => all.at(-1)?.number ?? 0;
  return {
    days: days.days,
    byRoof: days.byRoof,
    findings: [
      ...days.findings,
      ...lost,
      ...longerBy(lastDay(days), lastDay(unmoved), moved),
      ...siteFindings(work, days.days),
      ...weatherFindings(
        inputs.map(({ input }) => input),
        days.days,
        rules,
      ),
      ...meansFindings(inputs, rules.rates, supply),
    ],
    leastDays: least.days,
    leastMinutes: least.minutes,
    method: METHOD,
    dewPoint: plannedDewPoint(rules.rates),
    supply,
  };
}

function findMoved(
  inputs: readonly OrderedInput[],
  places: readonly MovedPlace[],
): { readonly moved: MovedCourse[]; readonly lost: Finding[] } {
  const moved: MovedCourse[] = [];
  const lost: Finding[] = [];
  for (const { roof, at, day } of places) {
    const layout = inputs.find(({ input }) => input.roof.id === roof)?.input.layout;
    const sheet = layout && sheetAt(layout, at);
    if (sheet) moved.push({ roof, course: sheet.course, name: courseName(sheet), day });
    else if (layout)
      lost.push({
        rule: 'moved-course-gone',
        severity: 'warning',
        roof,
        at,
        ids: [],
        message: `A course was moved to day ${day} here, and no course lies at this place any more. Take the move back or make it again.`,
        source: 'a move keeps its place on the roof',
      });
  }
  return { moved, lost };
}

/** The sheet whose own strip, up to the middles of its laps, has the place in it. */
function sheetAt({ bands, courses, sheets }: Layout, at: RoofPoint): Sheet | undefined {
  for (const { id, frame } of bands) {
    const [u, v] = toFrame(frame, at);
    const here = courses.filter(
      ({ band, low, width, lapAbove }) =>
        band === id && v >= low + lapAbove / 2 && v < low + width - lapAbove / 2,
    );
    const sheet = sheets.find(
      ({ course, along }) => here.some(({ index }) => index === course) && u >= along[0] && u <= along[1],
    );
    if (sheet) return sheet;
  }
  return undefined;
}

/** On which day the work ends, and on which it would with nothing moved. */
function longerBy(ends: number, unmoved: number, moved: readonly MovedCourse[]): Finding[] {
  const [first] = moved;
  if (!first || ends === unmoved) return [];
  return [
    {
      rule: 'moved-courses-cost',
      severity: 'advice',
      roof: first.roof,
      at: null,
      ids: [],
      message: `With ${moved.length === 1 ? 'the course that was moved' : 'the courses that were moved'} the work ends on day ${ends} instead of ${unmoved}: what lies over a moved course waits for it.`,
      source: 'the lower course first',
    },
  ];
}
