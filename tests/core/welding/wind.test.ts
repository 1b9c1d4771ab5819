// Wind: where laying starts, which way sheets are unrolled, and what stops.
import { describe, expect, it } from 'vitest';
import { SHIPPED_RATES } from '../../../core/rates/shipped';
import type { WorkRules } from '../../../core/welding/orderWork';
import type { LayingOrder } from '../../../core/welding/sequence';
import { planWelds } from '../../../core/welding/planWelds';
import { planSide, type Forecast } from '../../../core/welding/weatherFindings';
import { built, rectangle, roofSpec } from '../../support/roofs';
import { planOf, weldRules, workInput, workRules } from '../../support/welding';

const EAVES = { kind: 'eave', upstand: 0 } as const;
//   courses run along x; course 1 lies at the bottom
const input = workInput(built(roofSpec(rectangle(30_000, 40_000), [], EAVES)));
const long = workInput(built(roofSpec(rectangle(40_000, 20_000), [], EAVES)));

function on(changes: Partial<WorkRules> = {}, what = input) {
  const order: LayingOrder = changes.order ?? 'low to high';
  const plan = planWelds([what], weldRules(SHIPPED_RATES, { order }));
  return planOf([what], plan, workRules(SHIPPED_RATES, { orderChosen: false, ...changes }));
}
const forecast = (day: number, fields: Partial<Forecast>): Forecast => ({
  day,
  from: null,
  speed: null,
  celsius: null,
  humidity: null,
  hours: [],
  ...fields,
});
const said = (work: ReturnType<typeof on>) => work.findings.map(({ rule }) => rule);

describe('the windward edge first', () => {
  it('with the wind from the top, low to high ends at the windward edge: the conflict is shown, and a choice settles it', () => {
    const work = on({ wind: 90 });
    expect(work.findings.find(({ rule }) => rule === 'windward-edge-last')?.message).toMatch(
      /from the top of the plan.*Choose: low to high .* or windward first/,
    );
    expect(said(on({ wind: 90, orderChosen: true }))).not.toContain('windward-edge-last');
  });
  it.each([270, 0, 180, 20])('from %d° low to high begins at the windward edge or beside it', (wind) =>
    expect(said(on({ wind }))).not.toContain('windward-edge-last'),
  );
  it('windward first starts with the top course when the wind comes from the top', () => {
    const first = (wind: number) => on({ wind, order: { windward: wind } }).days[0]?.sheets[0]?.course;
    expect(first(90)).toBe(14);
    expect(first(45)).toBe(14);
    expect(first(270)).toBe(1);
    expect(first(0)).toBe(1);
  });
  it('a day’s own forecast is held against the edge that stays open that evening', () => {
    expect(said(on({ forecast: [forecast(2, { from: 90 })] }))).toContain('open-edge-to-windward');
    expect(said(on({ forecast: [forecast(2, { from: 270 })] }))).not.toContain('open-edge-to-windward');
  });
});

describe('unrolling', () => {
  const headings = (work: ReturnType<typeof on>) =>
    new Set(work.days.flatMap((day) => day.sheets.map(({ towards }) => towards)));

  it('a sheet alone in its run starts at the end where the wind comes from', () => {
    expect(headings(on())).toEqual(new Set([0]));
    expect(headings(on({ wind: 0 }))).toEqual(new Set([180]));
    expect(headings(on({ wind: 180 }))).toEqual(new Set([0]));
    expect(headings(on({ wind: 90 }))).toEqual(new Set([0]));
  });
  it('for one day only where only its wind is forecast', () => {
    const work = on({ forecast: [forecast(2, { from: 0 })] });
    expect(work.days[0]?.sheets[0]?.towards).toBe(0);
    expect(work.days[1]?.sheets[0]?.towards).toBe(180);
  });
  it('pieces of one run follow their laps, and that they go into the wind is said', () => {
    const work = on({ wind: 0 }, long);
    expect(headings(work)).toEqual(new Set([0]));
    expect(said(work)).toContain('unrolled-into-the-wind');
    expect(said(on({ wind: 180 }, long))).not.toContain('unrolled-into-the-wind');
  });
});

describe('stop speeds', () => {
  it.each([
    [7.4, []],
    [7.5, ['wind-stops-unrolling']],
    [9.9, ['wind-stops-unrolling']],
    [10, ['wind-stops-work']],
  ])('%d m/s on day 1 with the rates as shipped: %j', (speed, expected) => {
    expect(
      said(on({ forecast: [forecast(1, { speed })] })).filter((rule) => rule.startsWith('wind')),
    ).toEqual(expected);
  });
  it('go by the rates, and a day that the plan does not have is left alone', () => {
    const rates = {
      ...SHIPPED_RATES,
      welding: { ...SHIPPED_RATES.welding, wind: { unroll: 12, stop: 14 } },
    };
    expect(said(on({ rates, forecast: [forecast(1, { speed: 11 })] }))).not.toContain('wind-stops-unrolling');
    expect(said(on({ forecast: [forecast(500, { speed: 30 })] }))).not.toContain('wind-stops-work');
  });
});

describe('bonding by day', () => {
  it('a cold or a damp day is named', () => {
    const work = on({
      adhered: true,
      forecast: [forecast(1, { celsius: 2 }), forecast(2, { celsius: 12, humidity: 95 })],
    });
    const messages = work.findings.map(({ message }) => message).join(' ');
    expect(messages).toMatch(/Day 1 is forecast with 2 °C and the adhesive asks for 5 °C/);
    expect(messages).toMatch(/Day 2 is forecast with 12 °C and 95 % humidity: the dew point is 11.2 °C/);
  });
});

describe('sides of the plan', () => {
  it.each([
    [0, 'right'],
    [44, 'upper right'],
    [90, 'top'],
    [200, 'left'],
    [350, 'right'],
  ])('%d° is the %s', (degrees, side) => expect(planSide(degrees)).toBe(side));
});
