// In: laid roofs, their weld runs, rates, calendar and what a person decided. Out: the days, what stands against them,
// and how near they are to the fewest possible. Promise: what a person moved or chose is followed where the work
// allows it, and what it breaks is said.
import type { RoofPoint } from '../geometry/points';
import { toFrame } from '../sheets/frame';
import type { Finding } from '../verify/types';
import type { Calendar } from './calendar';
import { planDays, type DayPlan, type MovedCourse } from './planDays';
import { checkSupply, type SupplyCheck } from './power';
import { layingSequence } from './sequence';
import { firstSheetAlong, lastSheetAlong, sheetRows } from './touched';
import type { WeldPlan, WorkDay, WorkPlan } from './types';
import { workPieces, type LoadRules, type WorkInput } from './workLoads';

/** Keeps its place on the roof; which course lies there is found anew. */
export interface MovedPlace {
  readonly roof: string;
  readonly at: RoofPoint;
  readonly day: number;
}

export interface WorkRules extends LoadRules {
  readonly calendar: Calendar;
  readonly moved: readonly MovedPlace[];
  /** Where people and rolls come up. */
  readonly access: { readonly roof: string; readonly at: RoofPoint } | null;
  /** Whether a person has chosen the order of laying. */
  readonly orderChosen: boolean;
}

const METHOD =
  'The order of work is fixed: roof by roof, the sheet that goes under before the one over it, each with its welds and details. Days are filled in that order as far as they go, which for this order is the fewest. The least is all work divided by what a day holds.';

export function planWork(inputs: readonly WorkInput[], plan: WeldPlan, rules: WorkRules): WorkPlan {
  const pieces = workPieces(inputs, plan, rules);
  const { moved, lost } = findMoved(inputs, rules.moved);
  const fill = (held: readonly MovedCourse[]) =>
    planDays(pieces, { rates: rules.rates, calendar: rules.calendar, moved: held });
  const days = fill(moved);
  const supply = checkSupply(rules.rates.welding);
  const free = moved.length > 0 ? fill([]) : days;
  return {
    ...days,
    findings: [
      ...days.findings,
      ...lost,
      ...longerBy(days, free, moved),
      ...inputs.flatMap((input) => [
        ...drainFindings(input, days.days, rules),
        ...accessFindings(input, rules),
      ]),
      ...bondingFindings(inputs, rules),
      ...supplyFindings(inputs, supply),
    ],
    method: METHOD,
    supply,
  };
}

function findMoved(
  inputs: readonly WorkInput[],
  places: readonly MovedPlace[],
): { readonly moved: MovedCourse[]; readonly lost: Finding[] } {
  const moved: MovedCourse[] = [];
  const lost: Finding[] = [];
  for (const { roof, at, day } of places) {
    const layout = inputs.find((input) => input.roof.id === roof)?.layout;
    const v = layout ? toFrame(layout.frame, at)[1] : 0;
    const course = layout?.courses.find(
      ({ low, width, lapAbove }) => v >= low + lapAbove / 2 && v < low + width - lapAbove / 2,
    );
    if (course) moved.push({ roof, course: course.index, day });
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

function longerBy(days: DayPlan, free: DayPlan, moved: readonly MovedCourse[]): Finding[] {
  const last = (plan: DayPlan) => plan.days.at(-1)?.number ?? 0;
  const [first] = moved;
  if (!first || last(days) === last(free)) return [];
  return [
    {
      rule: 'moved-courses-cost',
      severity: 'advice',
      roof: first.roof,
      at: null,
      ids: [],
      message: `With ${moved.length === 1 ? 'the course that was moved' : 'the courses that were moved'} the work ends on day ${last(days)} instead of ${last(free)}: what lies over a moved course waits for it.`,
      source: 'the lower course first',
    },
  ];
}

/** Each evening some drain, scupper or gutter must carry off what falls on the part that is laid. */
function drainFindings({ roof, layout }: WorkInput, days: readonly WorkDay[], rules: WorkRules): Finding[] {
  const sequence = layingSequence(layout, rules.order);
  const rank = new Map(sequence.map((sheet, k) => [sheet.id, k]));
  const rows = sheetRows(layout, rank);
  const outlets = [
    ...roof.fittings
      .filter(({ kind }) => kind === 'drain' || kind === 'scupper')
      .map(({ at }) => firstSheetAlong(rows, at, at)),
    ...roof.edges
      .filter(({ kind }) => kind === 'gutter' || kind === 'eave')
      .map(({ from, to }) => firstSheetAlong(rows, from, to)),
  ];
  const first = Math.min(...outlets);
  const dry = days.filter((day) => {
    if (day.night?.roof !== roof.id) return false;
    const laid = day.sheets
      .filter((sheet) => sheet.roof === roof.id)
      .map(({ sheet }) => rank.get(sheet) ?? 0);
    return laid.length > 0 && Math.max(...laid) < first;
  });
  const [day] = dry;
  if (!day) return [];
  const which = dry.length === 1 ? `day ${day.number}` : `days ${day.number} to ${dry.at(-1)?.number}`;
  return [
    {
      rule: 'no-working-drain',
      severity: 'warning',
      roof: roof.id,
      at: null,
      ids: [],
      message: outlets.some(Number.isFinite)
        ? `On the evening of ${which} no drain, scupper, gutter or eave lies in the part that is laid. Start where the water goes, or set a pump and a hose for the night.`
        : `No drain, scupper, gutter or eave is drawn on this roof, so no evening is known to have a working one. Place them on the Roof stage.`,
      source: 'each open part with a working drain (common practice, no source)',
    },
  ];
}

/** Laying ends where the crew leaves; where it ends far from the access, they walk back over finished work. */
function accessFindings({ roof, layout }: WorkInput, rules: WorkRules): Finding[] {
  if (rules.access?.roof !== roof.id || rules.orderChosen) return [];
  const sequence = layingSequence(layout, rules.order);
  const rank = new Map(sequence.map((sheet, k) => [sheet.id, k]));
  const at = lastSheetAlong(sheetRows(layout, rank), rules.access.at, rules.access.at);
  if (at >= (sequence.length - 1) / 2) return [];
  return [
    {
      rule: 'access-at-the-start',
      severity: 'warning',
      roof: roof.id,
      at: rules.access.at,
      ids: [],
      message:
        'The access is at the low side, where laying starts so that laps shed water; so it ends at the far side, and the crew walks and wheels back over finished membrane. Choose: low to high with the way protected, or from the far end with each course tucked under the last.',
      source: 'from the far end to the access, and low to high (common practice, no source)',
    },
  ];
}

function supplyFindings(inputs: readonly WorkInput[], supply: SupplyCheck): Finding[] {
  const [first] = inputs;
  if (!first) return [];
  const head = { severity: 'warning', roof: first.roof.id, at: null, ids: [] } as const;
  const findings: Finding[] = [];
  if (!supply.holds)
    findings.push({
      ...head,
      rule: 'voltage-drop',
      message: `The lead of ${supply.machine} loses ${supply.percent.toFixed(1)} % of its voltage, which leaves ${Math.round(100 * supply.powerShare)} % of the heat. ${supply.leastSection === null ? 'Bring the supply nearer.' : `Take ${supply.leastSection} mm² or bring the supply nearer.`} An electrician decides.`,
      source: '2 · L · I · ρ ÷ S; 5 % is a guideline',
    });
  if (supply.supplyHolds === false)
    findings.push({
      ...head,
      rule: 'supply-too-small',
      message: `All machines at once draw ${supply.running.toFixed(1)} kW and the supply should give ${supply.generator.toFixed(1)} kW. Use fewer at once or a larger supply, one machine to a generator. An electrician decides.`,
      source: '1.25 times the running power (common practice, no source)',
    });
  return findings;
}

function bondingFindings(inputs: readonly WorkInput[], { rates, adhered }: WorkRules): Finding[] {
  const { adhering, conditions } = rates.welding;
  const [first] = inputs;
  if (!adhered || !first) return [];
  const head = { severity: 'warning', roof: first.roof.id, at: null, ids: [] } as const;
  const findings: Finding[] = [];
  if (conditions.celsius < adhering.leastCelsius)
    findings.push({
      ...head,
      rule: 'too-cold-to-bond',
      message: `The work is planned for ${conditions.celsius} °C and the adhesive asks for ${adhering.leastCelsius} °C. Wait for warmer days, or take an adhesive for the cold.`,
      source: 'the adhesive’s own least temperature as the rates give it',
    });
  if (conditions.humidity !== null) {
    const dew = dewPoint(conditions.celsius, conditions.humidity);
    if (conditions.celsius - dew < adhering.aboveDewPoint)
      findings.push({
        ...head,
        rule: 'dew-point-near',
        message: `At ${conditions.celsius} °C and ${conditions.humidity} % humidity the dew point is ${dew.toFixed(1)} °C, nearer than the ${adhering.aboveDewPoint} °C that bonding needs. Measure the deck on the day: below the dew point it is wet.`,
        source: 'dew point by Magnus’s formula, constants of D. Sonntag 1990',
      });
  }
  return findings;
}

/** Magnus's formula with the constants of D. Sonntag (1990): °C of the dew point, from air in °C and humidity in %. */
export function dewPoint(celsius: number, humidity: number): number {
  const gamma = Math.log(humidity / 100) + (17.62 * celsius) / (243.12 + celsius);
  return (243.12 * gamma) / (17.62 - gamma);
}
