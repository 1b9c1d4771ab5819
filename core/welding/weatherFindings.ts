// In: laid roofs, their days, the wind and what is forecast. Out: what the weather holds against the plan. Promise:
// stop speeds and least temperatures are the rates' own; what nobody has said is not guessed.
import type { Rates } from '../rates/schema';
import { acrossShare } from '../sheets/frame';
import type { Layout } from '../sheets/types';
import type { Finding } from '../verify/types';
import type { HourForecast } from './clock';
import { listed } from './dayFindings';
import { dewPoint } from './dewPoint';
import { ASTRIDE, laysRising, type LayingOrder } from './sequence';
import type { WorkDay } from './types';

export interface Forecast {
  readonly day: number;
  /** Where the wind comes from, degrees counter-clockwise from the plan's right; m/s, °C, %. */
  readonly from: number | null;
  readonly speed: number | null;
  readonly celsius: number | null;
  readonly humidity: number | null;
  /** The same by the hour, where it is known. */
  readonly hours: readonly HourForecast[];
}

export interface Weather {
  /** The wind of the site, for days without a forecast of their own. */
  readonly wind: number | null;
  readonly forecast: readonly Forecast[];
}

export interface WeatherRules extends Weather {
  readonly rates: Rates;
  readonly adhered: boolean;
  readonly order: LayingOrder;
  readonly orderChosen: boolean;
}

interface LaidRoof {
  readonly roof: { readonly id: string };
  readonly layout: Layout;
}

export function weatherFindings(
  inputs: readonly LaidRoof[],
  days: readonly WorkDay[],
  rules: WeatherRules,
): Finding[] {
  const [first] = inputs;
  if (!first) return [];
  return [
    ...inputs.flatMap((input) => [
      ...windwardFindings(input, rules),
      ...headingFindings(input, days, rules),
      ...openEdgeFindings(input, days, rules),
    ]),
    ...stopFindings(first.roof.id, days, rules),
    ...bondingFindings(first.roof.id, rules),
  ];
}

export function windOn({ wind, forecast }: Weather): (day: number) => number | null {
  const byDay = new Map(forecast.map((one) => [one.day, one.from]));
  return (day) => byDay.get(day) ?? wind;
}

/** In words for who holds the plan the right way up. */
export function planSide(degrees: number): string {
  const names = ['right', 'upper right', 'top', 'upper left', 'left', 'lower left', 'bottom', 'lower right'];
  return names[((Math.round(degrees / 45) % 8) + 8) % 8] as string;
}

const WINDWARD = 'the windward edge first (common practice, no source)';

function windwardFindings({ roof, layout }: LaidRoof, { wind, order, orderChosen }: WeatherRules): Finding[] {
  if (wind === null || orderChosen) return [];
  if (laysRising(layout, order) === laysRising(layout, { windward: wind })) return [];
  return [
    {
      rule: 'windward-edge-last',
      severity: 'warning',
      roof: roof.id,
      at: null,
      ids: [],
      message: `The wind comes from the ${planSide(wind)} of the plan, and laying from low to high, so that laps shed water, reaches that side last: each day's open edge faces the wind. Choose: low to high with the open edge held down, or windward first with each course tucked under the last.`,
      source: `${WINDWARD}, and low to high`,
    },
  ];
}

/** Sheets that are one of several in a run follow their laps; they may have to be unrolled into the wind. */
function headingFindings({ roof }: LaidRoof, days: readonly WorkDay[], weather: Weather): Finding[] {
  const from = windOn(weather);
  const into = days.flatMap((day) => {
    const wind = from(day.number);
    if (wind === null) return [];
    return day.sheets.filter(
      (sheet) => sheet.roof === roof.id && Math.cos(((sheet.towards - wind) * Math.PI) / 180) > ASTRIDE,
    );
  });
  if (into.length === 0) return [];
  return [
    {
      rule: 'unrolled-into-the-wind',
      severity: 'advice',
      roof: roof.id,
      at: null,
      ids: into.map(({ sheet }) => sheet),
      message: `${into.length === 1 ? `${into[0]?.sheet} is` : `${into.length} sheets are`} unrolled towards the wind, since the piece that goes under comes first. Fasten or weigh down the start before the roll is let go.`,
      source: WINDWARD,
    },
  ];
}

/** Only where a day has a forecast of its own: the site's wind is held against the order as a whole above. */
function openEdgeFindings(
  { roof, layout }: LaidRoof,
  days: readonly WorkDay[],
  rules: WeatherRules,
): Finding[] {
  const rising = laysRising(layout, rules.order);
  const facing = days.filter((day) => {
    const from = rules.forecast.find((one) => one.day === day.number)?.from ?? null;
    if (from === null || day.night?.roof !== roof.id) return false;
    return acrossShare(layout.frame, from) * (rising ? 1 : -1) > ASTRIDE;
  });
  if (facing.length === 0) return [];
  return [
    {
      rule: 'open-edge-to-windward',
      severity: 'warning',
      roof: roof.id,
      at: null,
      ids: [],
      message: `On day ${listed(facing)} the wind is forecast from the side that stays open. Hold the edge down as it is laid, close it well before the crew leaves, or lay another roof that day.`,
      source: WINDWARD,
    },
  ];
}

function stopFindings(roof: string, days: readonly WorkDay[], { rates, forecast }: WeatherRules): Finding[] {
  const { unroll, stop } = rates.welding.wind;
  const findings: Finding[] = [];
  for (const { day: number, speed } of forecast) {
    const day = days.find((one) => one.number === number);
    if (!day || speed === null || speed < Math.min(unroll, stop)) continue;
    const stops = speed >= stop;
    if (!stops && day.sheets.length === 0) continue;
    findings.push({
      rule: stops ? 'wind-stops-work' : 'wind-stops-unrolling',
      severity: 'warning',
      roof: day.sheets[0]?.roof ?? roof,
      at: null,
      ids: stops ? [] : day.sheets.map(({ sheet }) => sheet),
      message: stops
        ? `Day ${number} is forecast with ${speed} m/s: from ${stop} m/s all work on the roof stops. Count the day as lost. The site's own limit comes first.`
        : `Day ${number} is forecast with ${speed} m/s: from ${unroll} m/s nothing is unrolled. Move its ${day.sheets.length} sheet(s) to another day and weld details meanwhile. The site's own limit comes first.`,
      source: stops
        ? 'force 5, about 10 m/s, upsets balance (UK Health and Safety Executive); the rates hold the limit'
        : 'loose sheets in wind (common practice, no source); the rates hold the limit',
    });
  }
  return findings;
}

function bondingFindings(roof: string, { rates, adhered, forecast }: WeatherRules): Finding[] {
  if (!adhered) return [];
  const { conditions } = rates.welding;
  return [
    ...bonding(roof, 'The work is planned for', conditions.celsius, conditions.humidity, rates),
    ...forecast.flatMap(({ day, celsius, humidity }) =>
      celsius === null ? [] : bonding(roof, `Day ${day} is forecast with`, celsius, humidity, rates),
    ),
  ];
}

function bonding(
  roof: string,
  when: string,
  celsius: number,
  humidity: number | null,
  { welding }: Rates,
): Finding[] {
  const { leastCelsius, aboveDewPoint } = welding.adhering;
  const head = { severity: 'warning', roof, at: null, ids: [] } as const;
  const findings: Finding[] = [];
  if (celsius < leastCelsius)
    findings.push({
      ...head,
      rule: 'too-cold-to-bond',
      message: `${when} ${celsius} °C and the adhesive asks for ${leastCelsius} °C. Wait for warmer days, or take an adhesive for the cold.`,
      source: 'the adhesive’s own least temperature as the rates give it',
    });
  const dew = humidity === null ? null : dewPoint(celsius, humidity);
  if (dew !== null && celsius - dew < aboveDewPoint)
    findings.push({
      ...head,
      rule: 'dew-point-near',
      message: `${when} ${celsius} °C and ${humidity} % humidity: the dew point is ${dew.toFixed(1)} °C, nearer than the ${aboveDewPoint} °C that bonding needs. Measure the deck on the day: below the dew point it is wet.`,
      source: 'dew point by Magnus’s formula, constants of D. Sonntag 1990',
    });
  return findings;
}

export function plannedDewPoint({ welding }: Rates): number | null {
  const { celsius, humidity } = welding.conditions;
  return humidity === null ? null : dewPoint(celsius, humidity);
}
