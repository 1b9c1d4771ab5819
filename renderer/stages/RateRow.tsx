// One rate of the job: its value, whether it is assumed, and a way to confirm or change it.
import type { ReactNode } from 'react';
import { parseNumber } from '../../core/units/numbers';
import { DraftField } from '../ui/DraftField';
import { AssumedMark, LedgerRow } from '../ui/Ledger';
import { LengthField } from '../ui/LengthField';
import { MoneyField } from '../ui/MoneyField';
import { NumberField } from '../ui/NumberField';
import { isAssumed, useLive } from './session';

interface RateRowProps {
  readonly name: ReactNode;
  readonly label?: string;
  /** Below the job's rates. */
  readonly path: readonly (string | number)[];
  /** 'money' for amounts, 'length' for millimetres, else the unit behind the number. */
  readonly unit: string;
  readonly per?: string;
  readonly least?: number;
  readonly most?: number;
  readonly whole?: boolean;
}

export function RateRow({ name, label, path, unit, per, least, most, whole }: RateRowProps) {
  const { job, actions } = useLive();
  const value = valueAt(job.rates, path);
  const set = (next: unknown): string | null => actions.run({ kind: 'setRate', path, value: next });
  const called = label ?? (typeof name === 'string' ? name : path.join(' '));
  const field =
    unit === 'money' ? (
      <MoneyField label={called} amount={String(value)} onAmount={set} />
    ) : unit === 'length' ? (
      <LengthField label={called} mm={Number(value)} display={job.display} onLength={set} />
    ) : (
      <NumberField
        label={called}
        value={Number(value)}
        unit={unit}
        {...(least === undefined ? {} : { least })}
        {...(most === undefined ? {} : { most })}
        {...(whole === undefined ? {} : { whole })}
        onNumber={set}
      />
    );
  return (
    <LedgerRow
      name={name}
      figure={field}
      reason={
        <>
          {per && <span>{per} </span>}
          {isAssumed(job, `rates.${path.join('.')}`) && <AssumedMark onConfirm={() => set(value)} />}
        </>
      }
    />
  );
}

interface OpenRateRowProps {
  readonly name: string;
  readonly path: readonly (string | number)[];
  readonly unit: string;
  readonly reason: string;
}

/** A figure that stays open until somebody knows it: nothing is assumed in its place. */
export function OpenRateRow({ name, path, unit, reason }: OpenRateRowProps) {
  const { job, actions } = useLive();
  const value = valueAt(job.rates, path);
  const set = (next: number | null): string | null => actions.run({ kind: 'setRate', path, value: next });
  return (
    <LedgerRow
      name={name}
      figure={
        <DraftField
          label={name}
          shown={typeof value === 'number' ? String(value) : ''}
          placeholder="open"
          after={<span className="unit">{unit}</span>}
          onCommit={(text) => {
            const bare = text.replace(unit, '').trim();
            if (bare === '') return set(null);
            const parsed = parseNumber(bare);
            return 'fault' in parsed ? `${parsed.fault} Write digits such as 12.5.` : set(parsed.value);
          }}
        />
      }
      reason={reason}
    />
  );
}

function valueAt(node: unknown, path: readonly (string | number)[]): unknown {
  let here: unknown = node;
  for (const step of path) {
    if (typeof here !== 'object' || here === null) return undefined;
    here = (here as Readonly<Record<string | number, unknown>>)[step];
  }
  return here;
}
