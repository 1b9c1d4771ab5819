// An amount of money, kept as the decimal digits that were typed: it never becomes a binary fraction.
import { formatMoney } from '../../core/units/figures';
import { DraftField } from './DraftField';
import type { DraftFieldProps } from './DraftField';

interface MoneyFieldProps extends Omit<DraftFieldProps, 'shown' | 'onCommit'> {
  readonly amount: string;
  readonly onAmount: (amount: string) => string | null;
}

export function MoneyField({ amount, onAmount, ...rest }: MoneyFieldProps) {
  return (
    <DraftField
      {...rest}
      shown={formatMoney(amount)}
      onCommit={(text) => {
        const plain = text.replace(/[\s\u202f\u00a0]/g, '').replace(',', '.');
        if (!/^\d{1,12}(\.\d{1,6})?$/.test(plain))
          return `“${text.trim()}” is not an amount. Write digits with a point, such as 148.50.`;
        return onAmount(plain);
      }}
    />
  );
}
