// The project manager's page: what is bought, in whole packs; and how each roll is cut.
import { formatMoney, formatQuantity } from '../../core/units/figures';
import { formatNumber } from '../../core/units/numbers';
import type { OrderLine } from '../../core/order/types';
import { Drawer, Ledger, LedgerRow, RestsLegend, Section } from '../ui/Ledger';
import { counted } from '../ui/plural';
import { CutList } from './CutList';
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
  'nightSeal',
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
  const figure = `${formatNumber(line.packs)} ${counted(line.packs, line.packName)}`;
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
