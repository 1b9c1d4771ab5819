// In: the work in its order, its days, the rates and the supply. Out: what the site holds against the plan: evenings
// without a drain, an access at the wrong end, machines without hands, leads that are too thin. Promise: one finding a
// roof, however many evenings; an electrician decides on the supply.
import type { Rates } from '../rates/schema';
import type { Finding } from '../verify/types';
import type { OrderedWork, WorkRules } from './orderWork';
import type { SupplyCheck } from './power';
import { firstSheetAlong, lastSheetAlong } from './touched';
import type { WorkDay } from './types';
import type { OrderedInput } from './workLoads';

export function siteFindings({ inputs, rules }: OrderedWork, days: readonly WorkDay[]): Finding[] {
  return inputs.flatMap((input) => [...drainFindings(input, days), ...accessFindings(input, rules)]);
}

/** Each evening some drain, scupper or gutter must carry off what falls on the part that is laid. */
function drainFindings(
  { input: { roof }, laid: { rank, rows } }: OrderedInput,
  days: readonly WorkDay[],
): Finding[] {
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
    const laid = day.sheets.filter((sheet) => sheet.roof === roof.id);
    return laid.length > 0 && laid.every(({ sheet }) => (rank.get(sheet) ?? 0) < first);
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
function accessFindings(
  { input: { roof }, laid: { sequence, rows } }: OrderedInput,
  rules: WorkRules,
): Finding[] {
  if (rules.access?.roof !== roof.id || rules.orderChosen) return [];
  const at = lastSheetAlong(rows, rules.access.at, rules.access.at);
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

/** Whether the crew and the supply carry the machines that are planned. */
export function meansFindings(
  [first]: readonly OrderedInput[],
  rates: Rates,
  supply: SupplyCheck,
): Finding[] {
  if (!first) return [];
  const { id } = first.input.roof;
  return [...handsFindings(id, rates, supply.atOnce), ...supplyFindings(id, supply)];
}

function handsFindings(roof: string, { welding, labour }: Rates, atOnce: number): Finding[] {
  if (atOnce === welding.machines.length) return [];
  return [
    {
      rule: 'machines-without-hands',
      severity: 'advice',
      roof,
      at: null,
      ids: [],
      message: `${welding.machines.length} machines are listed and the crew has people for ${atOnce}: ${labour.crew * welding.crews} people, ${labour.perWelder} to a machine. The first ${atOnce === 1 ? 'one is' : `${atOnce} are`} planned. Give the crew more people, or take machines out.`,
      source: 'people to a machine as the rates give it',
    },
  ];
}

function supplyFindings(roof: string, supply: SupplyCheck): Finding[] {
  const head = { severity: 'warning', roof, at: null, ids: [] } as const;
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
