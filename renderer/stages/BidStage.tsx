// The estimator's page: price lines by group to the total, each line with its sum; and the rates behind them.
import { formatMoney } from '../../core/units/figures';
import type { BidGroup, BidLine } from '../../core/price/types';
import { Switch } from '../ui/Choice';
import { AssumedMark, Drawer, Ledger, LedgerRow, RestsLegend, Section } from '../ui/Ledger';
import { counted } from '../ui/plural';
import { RateRow } from './RateRow';
import { sayIds } from './QuantityRows';
import { isAssumed, useLive } from './session';

const GROUPS: readonly { group: BidGroup; title: string }[] = [
  { group: 'material', title: 'Material' },
  { group: 'labour', title: 'Labour' },
  { group: 'plant', title: 'Plant' },
  { group: 'contingency', title: 'Contingency' },
  { group: 'overhead', title: 'Overhead' },
  { group: 'profit', title: 'Profit' },
  { group: 'tax', title: 'Tax' },
];

export function BidStage() {
  const { estimate, actions } = useLive();
  const bid = estimate?.bid;
  return (
    <>
      <Section title="Bid">
        <Ledger label="Bid">
          {bid &&
            GROUPS.map(({ group, title }) => {
              const lines = bid.lines.filter((line) => line.group === group);
              const subtotal = bid.subtotals.find((one) => one.group === group);
              if (lines.length === 0) return null;
              return (
                <div key={group} className="bid-group">
                  {lines.length > 1 && <h3>{title}</h3>}
                  {lines.map((line) => (
                    <BidRow key={line.key} line={line} />
                  ))}
                  {lines.length > 1 && subtotal && (
                    <LedgerRow
                      name={`${title} in all`}
                      figure={formatMoney(subtotal.amount)}
                      reason=""
                      total
                    />
                  )}
                </div>
              );
            })}
          {bid && (
            <LedgerRow
              total
              name="Total"
              figure={<span className="grand">{formatMoney(bid.total)}</span>}
              reason={`${bid.currency}, ${formatMoney(bid.perSquareMetre)} per m²`}
            />
          )}
        </Ledger>
        <RestsLegend />
        <p className="row-of-buttons">
          <button type="button" className="primary" onClick={() => actions.exportPack('bid.pdf')}>
            Bid as PDF
          </button>
          <button type="button" onClick={() => actions.exportPack('bid.xlsx')}>
            Bid as workbook
          </button>
          <button type="button" onClick={() => actions.exportPack('roof.pdf')}>
            Roof map as PDF
          </button>
        </p>
      </Section>
      <RatePanels />
    </>
  );
}

function BidRow({ line }: { readonly line: BidLine }) {
  const { view, actions } = useLive();
  const key = `bid.${line.key}`;
  const amount = formatMoney(line.amount);
  return (
    <LedgerRow
      name={line.label}
      figure={amount}
      reason={line.quantity === null ? '' : `${line.quantity} ${unitOf(line)} × ${sayRate(line.rate ?? '')}`}
      assumed={line.assumed !== null}
      onWhy={() => actions.explain({ key, from: line.from })}
      why={
        view.why === key
          ? {
              title: `${line.label}: ${amount}, why?`,
              formula: line.formula,
              from: sayIds(line.from),
              assumed: line.assumed,
            }
          : null
      }
    />
  );
}

const unitOf = ({ unit, quantity }: BidLine): string =>
  unit === null || unit === 'h' ? (unit ?? '') : counted(Number(quantity), unit);

/** Without the zeros beyond the cents. */
const sayRate = (rate: string): string => formatMoney(rate.replace(/(\.\d\d)(\d*?)0+$/, '$1$2'));

function RatePanels() {
  const { job, actions } = useLive();
  const { rates } = job;
  return (
    <>
      <Section title="Terms">
        <Ledger label="Terms">
          <RateRow name="Contingency" path={['contingencyPercent']} unit="%" most={100} />
          <RateRow name="Overhead" path={['overheadPercent']} unit="%" most={100} />
          <RateRow
            name="Profit"
            path={['profit', 'percent']}
            unit="%"
            most={99}
            per={rates.profit.as === 'margin' ? 'of the price' : 'on the cost'}
          />
          <LedgerRow
            wide
            name="Profit as"
            figure={
              <Switch
                label="Profit as"
                value={rates.profit.as}
                options={[
                  { value: 'markup', text: 'Markup' },
                  { value: 'margin', text: 'Margin' },
                ]}
                onChoose={(as) => actions.run({ kind: 'setRate', path: ['profit', 'as'], value: as })}
              />
            }
            reason={
              isAssumed(job, 'rates.profit.as') ? (
                <AssumedMark
                  onConfirm={() =>
                    actions.run({ kind: 'setRate', path: ['profit', 'as'], value: rates.profit.as })
                  }
                />
              ) : (
                ''
              )
            }
          />
          <RateRow name="Tax" path={['taxPercent']} unit="%" most={100} />
        </Ledger>
      </Section>
      <Drawer title="Labour">
        <Ledger label="Labour">
          <RateRow name="Crew" path={['labour', 'crew']} unit="people" whole />
          <RateRow name="At each weld" path={['labour', 'perWelder']} unit="people" />
          <RateRow name="Wage" path={['labour', 'wage']} unit="money" per="an hour" />
          <RateRow name="Burden on wages" path={['labour', 'burdenPercent']} unit="%" most={100} />
          <RateRow name="Laying the field" path={['labour', 'layingPerM2']} unit="h/m²" />
          <RateRow name="Each fastener" path={['labour', 'perFastener']} unit="min" />
          <RateRow name="Flashing" path={['labour', 'flashingPerM']} unit="h/m" />
          <RateRow name="Each corner" path={['labour', 'perCorner']} unit="min" />
          <RateRow name="Each boot" path={['labour', 'perBoot']} unit="min" />
          <RateRow name="Working day" path={['labour', 'dayHours']} unit="h" most={24} />
        </Ledger>
      </Drawer>
      <Drawer title="Prices">
        <Ledger label="Prices">
          {rates.rolls.map((roll, k) => (
            <RateRow key={roll.id} name={roll.name} path={['rolls', k, 'price']} unit="money" per="a roll" />
          ))}
          <RateRow
            name={rates.flashingRoll.name}
            path={['flashingRoll', 'price']}
            unit="money"
            per="a roll"
          />
          {Object.entries(rates.packs).map(([key, pack]) => (
            <RateRow
              key={key}
              name={pack.name}
              path={['packs', key, 'price']}
              unit="money"
              per={`a ${pack.packName} of ${pack.packSize}`}
            />
          ))}
          {rates.plant.map((item, k) => (
            <RateRow
              key={item.name}
              name={item.name}
              path={['plant', k, 'price']}
              unit="money"
              per={`a ${item.per}`}
            />
          ))}
        </Ledger>
      </Drawer>
    </>
  );
}
