// In: laid roofs, their weld runs, rates, calendar and what a person decided. Out: the days, what stands against them,
// and how near they are to the fewest possible. Promise: what a person moved or chose is followed where the work
// allows it, and what it breaks is said.
import type { RoofPoint } from '../geometry/points';
import type { Rates } from '../rates/schema';
import { toFrame } from '../sheets/frame';
import type { Layout, Sheet } from '../sheets/types';
import type { Finding } from '../verify/types';
import type { Calendar } from './calendar';
import { dayClock, type DayClock } from './clock';
import { lastDayOf, planDays, type MovedCourse } from './planDays';
import { leastWork } from './leastWork';
import { machinesAtOnce } from './planWelds';
import { checkSupply, type SupplyCheck } from './power';
import { courseName, layingSequence } from './sequence';
import { firstSheetAlong, lastSheetAlong, sheetRows } from './touched';
import type { WeldPlan, WorkDay, WorkPlan } from './types';
import { plannedDewPoint, weatherFindings, windOn, type Weather } from './weatherFindings';
import { workPieces, type LoadRules, type WorkInput } from './workLoads';

/** Keeps its place on the roof; which course lies there is found anew. */
export interface MovedPlace {
  readonly roof: string;
  readonly at: RoofPoint;
  readonly day: number;
}

export interface WorkRules extends LoadRules, Weather {
  readonly calendar: Calendar;
  readonly moved: readonly MovedPlace[];
  /** Where people and rolls come up. */
  readonly access: { readonly roof: string; readonly at: RoofPoint } | null;
  /** Whether a person has chosen the order of laying. */
  readonly orderChosen: boolean;
}

const METHOD =
  'The order of work is fixed: roof by roof, sheet by sheet, each with its welds and details; whichever machine is free first takes the next lap. Days are filled in that order as far as they go, which for this order is the fewest. The least holds for any order: every lap by the fastest machine, no walking, no waiting, nothing to close for the night.';

export function planWork(inputs: readonly WorkInput[], plan: WeldPlan, rules: WorkRules): WorkPlan {
  const pieces = workPieces(inputs, plan, rules);
  const { moved, lost } = findMoved(inputs, rules.moved);
  const { rates, adhered, calendar } = rules;
  const dayRules = { rates, adhered, calendar, moved, windOn: windOn(rules), clockOn: clockOn(rules) };
  const days = planDays(pieces, dayRules);
  const ends = days.days.at(-1)?.number ?? 0;
  const atOnce = machinesAtOnce(rates);
  const supply = checkSupply(rates.welding, atOnce);
  const least = leastWork(pieces, plan, rates, days.capacity);
  const unmoved = moved.length > 0 ? lastDayOf(pieces, { ...dayRules, moved: [] }) : ends;
  return {
    days: days.days,
    byRoof: days.byRoof,
    findings: [
      ...days.findings,
      ...lost,
      ...longerBy(ends, unmoved, moved),
      ...inputs.flatMap((input) => [
        ...drainFindings(input, days.days, rules),
        ...accessFindings(input, rules),
      ]),
      ...weatherFindings(inputs, days.days, rules),
      ...handsFindings(inputs, rates, atOnce),
      ...supplyFindings(inputs, supply),
    ],
    leastDays: least.days,
    leastMinutes: least.minutes,
    method: METHOD,
    dewPoint: plannedDewPoint(rates),
    supply,
  };
}

/** Every day has the same clock but those whose hours are forecast. */
function clockOn({ rates, adhered, forecast }: WorkRules): (day: number) => DayClock {
  const usual = dayClock(rates, [], adhered);
  const own = new Map(
    forecast
      .filter(({ hours }) => hours.length > 0)
      .map(({ day, hours }) => [day, dayClock(rates, hours, adhered)] as const),
  );
  return (day) => own.get(day) ?? usual;
}

function findMoved(
  inputs: readonly WorkInput[],
  places: readonly MovedPlace[],
): { readonly moved: MovedCourse[]; readonly lost: Finding[] } {
  const moved: MovedCourse[] = [];
  const lost: Finding[] = [];
  for (const { roof, at, day } of places) {
    const layout = inputs.find((input) => input.roof.id === roof)?.layout;
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

/** Each evening some drain, scupper or gutter must carry off what falls on the part that is laid. */
function drainFindings(
  { roof, layout, seams }: WorkInput,
  days: readonly WorkDay[],
  rules: WorkRules,
): Finding[] {
  const sequence = layingSequence(layout, seams, rules.order);
  const rank = new Map(sequence.map(({ sheet }, k) => [sheet.id, k]));
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
function accessFindings({ roof, layout, seams }: WorkInput, rules: WorkRules): Finding[] {
  if (rules.access?.roof !== roof.id || rules.orderChosen) return [];
  const sequence = layingSequence(layout, seams, rules.order);
  const rank = new Map(sequence.map(({ sheet }, k) => [sheet.id, k]));
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

function handsFindings([first]: readonly WorkInput[], { welding, labour }: Rates, atOnce: number): Finding[] {
  if (!first || atOnce === welding.machines.length) return [];
  return [
    {
      rule: 'machines-without-hands',
      severity: 'advice',
      roof: first.roof.id,
      at: null,
      ids: [],
      message: `${welding.machines.length} machines are listed and the crew has people for ${atOnce}: ${labour.crew * welding.crews} people, ${labour.perWelder} to a machine. The first ${atOnce === 1 ? 'one is' : `${atOnce} are`} planned. Give the crew more people, or take machines out.`,
      source: 'people to a machine as the rates give it',
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
      message: `${supply.atOnce === 1 ? 'The machine draws' : `${supply.atOnce} machines at once draw`} ${supply.running.toFixed(1)} kW and the supply should give ${supply.generator.toFixed(1)} kW. Use fewer at once or a larger supply, one machine to a generator. An electrician decides.`,
      source: '1.25 times the running power (common practice, no source)',
    });
  return findings;
}
