// The project manager's page: what is bought, in whole packs; and how each roll is cut.
import { useState } from 'react';
import { formatMoney, formatQuantity } from '../../core/units/figures';
import { formatNumber } from '../../core/units/numbers';
import { formatLength } from '../../core/units/lengths';
import type { OrderLine } from '../../core/order/types';
import type { RollCut } from '../../core/sheets/types';
import { Drawer, Ledger, LedgerRow, RestsLegend, Section } from '../ui/Ledger';
import { RateRow } from './RateRow';
import { sayIds } from './QuantityRows';
import { useLive } from './session';

const PACKS = [
  'fastener',
  'plate',
  'adhesive',
  'tJointPatch',
  'cornerPiece',
  'pipeBoot',
  'drainInsert',
  'sealant',
] as const;

export function OrderStage() {
  const { job, estimate, actions } = useLive();
  const order = estimate?.order;
  return (
    <>
      <Section title="Order">
        <Ledger label="Order">
          {order?.lines.map((line) => (
            <OrderRow key={line.key} line={line} />
          ))}
          {order && (
            <LedgerRow
              total
              name="Mass"
              figure={formatQuantity(order.mass, 'kg', job.display)}
              reason={
                order.lines.some((line) => line.mass === null)
                  ? 'of what has a known mass'
                  : `${order.pallets} ${order.pallets === 1 ? 'pallet' : 'pallets'}`
              }
            />
          )}
          {order && (
            <LedgerRow
              name="Pallets"
              figure={formatNumber(order.pallets)}
              reason={`of at most ${formatQuantity(job.rates.palletMass, 'kg', job.display)}`}
            />
          )}
        </Ledger>
        <RestsLegend />
        <p className="row-of-buttons">
          <button type="button" onClick={() => actions.exportPack('order.csv')}>
            Order as CSV
          </button>
          <button type="button" onClick={() => actions.exportPack('order.pdf')}>
            Order as PDF
          </button>
          <button type="button" onClick={() => actions.exportPack('cut-list.csv')}>
            Cut list as CSV
          </button>
        </p>
        <p className="soft">
          Before pallets are set down on a roof, a structural engineer says where and how many.
        </p>
      </Section>
      {estimate && <CutList />}
      <Drawer title="Packs and coverage">
        <Ledger label="Packs">
          {PACKS.map((pack) => (
            <RateRow
              key={pack}
              name={job.rates.packs[pack].name}
              path={['packs', pack, 'packSize']}
              unit=""
              per={`in a ${job.rates.packs[pack].packName}`}
            />
          ))}
          <RateRow name="Adhesive covers" path={['adhesiveCoverage']} unit="m²/l" />
          <RateRow name="Spare fasteners" path={['sparePercent', 'fasteners']} unit="%" most={100} />
          <RateRow name="Spare flashing" path={['sparePercent', 'flashing']} unit="%" most={100} />
          <RateRow name="Edge fasteners" path={['edgeFastenerSpacing']} unit="length" per="apart" />
          <RateRow name="Pallet holds" path={['palletMass']} unit="kg" />
        </Ledger>
      </Drawer>
    </>
  );
}

function OrderRow({ line }: { readonly line: OrderLine }) {
  const { job, view, actions } = useLive();
  const key = `order.${line.key}`;
  const figure = `${formatNumber(line.packs)} ${line.packs === 1 ? line.packName : plural(line.packName)}`;
  return (
    <LedgerRow
      name={line.description}
      figure={figure}
      reason={line.mass === null ? 'mass not known' : formatQuantity(line.mass, 'kg', job.display)}
      assumed={line.assumed !== null}
      onWhy={() => actions.explain({ key, from: line.from })}
      why={
        view.why === key
          ? {
              title: `${line.description}: ${figure}, why?`,
              formula: `${line.formula}. ${formatMoney(line.unitPrice)} a ${line.packName}.`,
              from: sayIds(line.from),
              assumed: line.assumed,
            }
          : null
      }
    />
  );
}

const plural = (word: string): string => (/(x|s|ch|sh)$/.test(word) ? `${word}es` : `${word}s`);

const ROLLS_AT_ONCE = 40;

/** Each roll as a bar: its pieces in the order of cutting, and what is left of it. */
function CutList() {
  const { job, estimate, actions } = useLive();
  const [shown, setShown] = useState(ROLLS_AT_ONCE);
  const rolls = (estimate?.roofs ?? []).flatMap((roof) =>
    (roof.layout?.cutList.rolls ?? []).map((roll) => ({ roll, roof: roof.id, letter: roof.letter })),
  );
  const several = (estimate?.roofs.length ?? 0) > 1;
  return (
    <Section title={`Cut list, ${rolls.length} ${rolls.length === 1 ? 'roll' : 'rolls'}`}>
      <ul className="cuts" aria-label="Cut list">
        {rolls.slice(0, shown).map(({ roll, roof, letter }) => (
          <li key={`${roof}-${roll.id}`}>
            <span className="cut-roll">
              {several && !roll.id.includes('-') ? `${letter} ${roll.id}` : roll.id}
            </span>
            <span className="cut-bar">
              {roll.pieces.map((piece) => (
                <button
                  key={piece.sheet}
                  type="button"
                  style={{ flexGrow: piece.length }}
                  title={`${piece.sheet}, ${formatLength(piece.length, job.display)}`}
                  onClick={() => actions.pick([{ kind: 'sheet', id: piece.sheet, roof }])}
                >
                  {piece.length / total(roll) > 0.16 ? piece.sheet : ''}
                </button>
              ))}
              {roll.offcut > 0 && (
                <span className="cut-left" style={{ flexGrow: roll.offcut }} title="left over" />
              )}
            </span>
            <span className="cut-figure">{formatLength(roll.offcut, job.display)}</span>
          </li>
        ))}
      </ul>
      <p className="soft">The last figure is what is left of the roll. Click a piece to see where it lies.</p>
      {rolls.length > shown && (
        <button type="button" className="quiet" onClick={() => setShown(shown + 200)}>
          {rolls.length - shown} more
        </button>
      )}
    </Section>
  );
}

const total = (roll: RollCut): number =>
  roll.pieces.reduce((sum, piece) => sum + piece.length, roll.offcut) || 1;
