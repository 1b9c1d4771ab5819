// Figures of the estimate as ledger rows, each with its "why".
import { formatQuantity } from '../../core/units/figures';
import type { Quantity } from '../../core/quantities/types';
import { LedgerRow } from '../ui/Ledger';
import { useLive } from './session';

interface QuantityRowsProps {
  readonly quantities: readonly Quantity[];
  readonly reasons?: Readonly<Record<string, string>>;
}

export function QuantityRows({ quantities, reasons }: QuantityRowsProps) {
  return (
    <>
      {quantities.map((quantity) => (
        <QuantityRow key={quantity.key} quantity={quantity} reason={reasons?.[quantity.key]} />
      ))}
    </>
  );
}

function QuantityRow({
  quantity,
  reason,
}: {
  readonly quantity: Quantity;
  readonly reason: string | undefined;
}) {
  const { job, view, actions } = useLive();
  const figure = formatQuantity(quantity.value, quantity.unit, job.display);
  const open = view.why === quantity.key;
  return (
    <LedgerRow
      name={quantity.label}
      figure={figure}
      reason={reason}
      assumed={quantity.assumed !== null}
      onWhy={() => actions.explain(quantity)}
      why={
        open
          ? {
              title: `${quantity.label}: ${figure}, why?`,
              formula: quantity.formula,
              from: sayIds(quantity.from),
              assumed: quantity.assumed,
            }
          : null
      }
    />
  );
}

/** "C03.1 … C18.1 lit on the plan": the first and last stand for the rest. */
export function sayIds(ids: readonly string[]): string | null {
  const [first] = ids;
  const last = ids.at(-1);
  if (first === undefined || last === undefined) return null;
  if (ids.length === 1) return `${first} lit on the plan`;
  if (ids.length <= 3) return `${ids.join(', ')} lit on the plan`;
  return `${first} … ${last}: ${ids.length} lit on the plan`;
}
