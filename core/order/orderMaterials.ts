// In: the job's quantities and the products. Out: what is bought, in whole packs, with mass and pallets. Promise:
// ordered ≥ needed, and one pack less would not do.
import { roundUpToPack } from './packs';
import type { PackProduct, Rates, RollRate } from '../rates/schema';
import { joinAssumed } from '../quantities/assumptions';
import type { Quantities, Quantity } from '../quantities/types';
import { formatNumber } from '../units/numbers';
import type { Order, OrderLine } from './types';

export interface OrderRules {
  readonly rates: Rates;
  readonly attachment: 'fastened in the lap' | 'adhered';
  /** Whether T-joints get a patch: thicker TPO does, PVC is chamfered (common practice, no source). */
  readonly patches: boolean;
  /** Says which of some dotted paths are still shipped values, or null. */
  readonly assumed: (...paths: string[]) => string | null;
}

export function orderMaterials(quantities: Quantities, rules: OrderRules): Order {
  const { rates } = rules;
  const figure = (key: string) => quantities.find((q) => q.key === key);
  const lines: (OrderLine | null)[] = [
    ...rates.rolls.map((roll) => rollLine(`field.${roll.id}`, roll, figure(`rolls.${roll.id}`), 1)),
    flashingLine(rates, figure('flashing.roll')),
    ...fastenerLines(quantities, rates),
    packLine('plate', rates.packs.plate, figure('fasteners.count'), 'pieces', rates.sparePercent.fasteners),
    rules.attachment === 'adhered'
      ? packLine('adhesive', rates.packs.adhesive, figure('adhesive'), 'litres', 0)
      : null,
    rules.patches
      ? packLine('tJointPatch', rates.packs.tJointPatch, figure('count.tJoints'), 'pieces', 0)
      : null,
    packLine(
      'cornerPiece',
      rates.packs.cornerPiece,
      added(figure('corners.inside'), figure('corners.outside')),
      'pieces',
      0,
    ),
    packLine('pipeBoot', rates.packs.pipeBoot, figure('boots.pipe'), 'pieces', 0),
    packLine('drainInsert', rates.packs.drainInsert, figure('boots.drain'), 'pieces', 0),
    packLine('sealant', rates.packs.sealant, added(figure('flashing.length'), figure('edge.cut')), 'm', 0),
    packLine('nightSeal', rates.packs.nightSeal, figure('night.seal'), 'm', 0),
  ];
  const kept = lines
    .filter((line): line is OrderLine => line !== null && line.packs > 0)
    .map((line) => ({ ...line, assumed: joinAssumed(line.assumed, rules.assumed(ratePath(line.key))) }));
  const mass = kept.reduce((sum, line) => sum + (line.mass ?? 0), 0);
  return { lines: kept, mass, pallets: roundUpToPack(mass, rates.palletMass) };
}

/** Where in the rates a line's pack and price stand. */
function ratePath(key: string): string {
  if (key === 'flashing') return 'rates.flashingRoll';
  if (key.startsWith('fastener.')) return 'rates.packs.fastener';
  return key.startsWith('field.') ? 'rates.rolls' : `rates.packs.${key}`;
}

function rollLine(
  key: string,
  roll: RollRate | undefined,
  need: Quantity | undefined,
  packSize: number,
): OrderLine | null {
  if (!roll || !need) return null;
  const packs = roundUpToPack(need.value, packSize);
  return {
    key,
    product: roll.id,
    description: roll.name,
    need: need.value,
    unit: 'rolls',
    packSize,
    packName: 'roll',
    packs,
    mass: (packs * roll.width * roll.length * roll.massPerM2) / 1e6,
    unitPrice: roll.price,
    from: need.from,
    formula: `${formatNumber(need.value)} rolls from the cut list`,
    assumed: need.assumed,
  };
}

/** Flashings are counted as metres of roll; a spare share covers cutting at corners. */
function flashingLine(rates: Rates, need: Quantity | undefined): OrderLine | null {
  if (!need || need.value === 0) return null;
  const roll = rates.flashingRoll;
  const spare = rates.sparePercent.flashing;
  const metres = need.value * (1 + spare / 100);
  const perRoll = roll.length / 1000;
  const rolls: Quantity = { ...need, value: metres / perRoll, unit: 'rolls' };
  const line = rollLine('flashing', roll, rolls, 1);
  return (
    line && {
      ...line,
      formula: `${formatNumber(need.value, 1)} m of roll + ${spare} % = ${formatNumber(metres, 1)} m ÷ ${formatNumber(perRoll, 1)} m, rounded up`,
    }
  );
}

function packLine(
  key: string,
  product: PackProduct,
  need: Quantity | undefined,
  unit: OrderLine['unit'],
  spare: number,
): OrderLine | null {
  if (!need) return null;
  const wanted = need.value * (1 + spare / 100);
  const packs = roundUpToPack(wanted, product.packSize);
  const plus = spare > 0 ? ` + ${spare} % spare` : '';
  return {
    key,
    product: key,
    description: product.name,
    need: wanted,
    unit,
    packSize: product.packSize,
    packName: product.packName,
    packs,
    mass: product.packMass === null ? null : packs * product.packMass,
    unitPrice: product.price,
    from: need.from,
    formula: `${formatNumber(need.value, unit === 'pieces' ? 0 : 1)} ${unit}${plus} ÷ ${formatNumber(product.packSize)} a ${product.packName}, rounded up`,
    assumed: need.assumed,
  };
}

/** A line for each length; those whose length nobody knows yet are a line of their own, which says so. */
function fastenerLines(quantities: Quantities, { packs, sparePercent }: Rates): (OrderLine | null)[] {
  const all = quantities.find(({ key }) => key === 'fasteners.count');
  const byLength = quantities.filter(({ key }) => key.startsWith(FASTENERS_OF));
  const known = byLength.reduce((sum, { value }) => sum + value, 0);
  const line = (key: string, need: Quantity, words: string) => {
    const found = packLine(key, packs.fastener, need, 'pieces', sparePercent.fasteners);
    return found && { ...found, description: `${found.description}, ${words}` };
  };
  return [
    ...byLength.map((need) => {
      const mm = need.key.slice(FASTENERS_OF.length);
      return line(`fastener.${mm}`, need, `${mm} mm long`);
    }),
    all && all.value > known
      ? line('fastener', { ...all, value: all.value - known }, 'length not given')
      : null,
  ];
}

const FASTENERS_OF = 'fasteners.length.';

function added(a: Quantity | undefined, b: Quantity | undefined): Quantity | undefined {
  return a && b && { ...a, value: a.value + b.value, from: [...a.from, ...b.from] };
}
