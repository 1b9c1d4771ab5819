// A plain number with its unit beside it.
import { formatNumber, parseNumber } from '../../core/units/numbers';
import { DraftField } from './DraftField';
import type { DraftFieldProps } from './DraftField';

interface NumberFieldProps extends Omit<DraftFieldProps, 'shown' | 'onCommit' | 'after'> {
  readonly value: number;
  readonly unit: string;
  readonly least?: number;
  readonly most?: number;
  readonly whole?: boolean;
  readonly onNumber: (value: number) => string | null;
}

export function NumberField({ value, unit, least = 0, most, whole, onNumber, ...rest }: NumberFieldProps) {
  return (
    <DraftField
      {...rest}
      shown={plainNumber(value)}
      after={unit === '' ? undefined : <span className="unit">{unit}</span>}
      onCommit={(text) => {
        const parsed = parseNumber(text.replace(unit === '' ? /$^/ : unit, ''));
        if ('fault' in parsed) return `${parsed.fault} Write digits such as ${plainNumber(value)}.`;
        if (whole && !Number.isInteger(parsed.value)) return 'A whole number is needed here.';
        if (parsed.value < least) return `At least ${least} is needed here.`;
        if (most !== undefined && parsed.value > most) return `At most ${most} fits here.`;
        return onNumber(parsed.value);
      }}
    />
  );
}

/** As many decimals as the number has, up to four. */
function plainNumber(value: number): string {
  for (let decimals = 0; decimals < 4; decimals++)
    if (Math.abs(Number(value.toFixed(decimals)) - value) < 1e-9) return formatNumber(value, decimals);
  return formatNumber(value, 4);
}
