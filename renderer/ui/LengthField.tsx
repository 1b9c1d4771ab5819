// A length, typed in millimetres, metres or feet and inches.
import { formatLength, parseLength } from '../../core/units/lengths';
import type { Display } from '../../core/units/lengths';
import { DraftField } from './DraftField';
import type { DraftFieldProps } from './DraftField';

interface LengthFieldProps extends Omit<DraftFieldProps, 'shown' | 'onCommit'> {
  /** mm; null shows nothing, such as for several unequal values. */
  readonly mm: number | null;
  readonly display: Display;
  readonly onLength: (mm: number) => string | null;
}

export function LengthField({ mm, display, onLength, ...rest }: LengthFieldProps) {
  return (
    <DraftField
      {...rest}
      shown={mm === null ? '' : formatLength(mm, display)}
      onCommit={(text) => {
        const parsed = parseLength(text, display);
        return 'fault' in parsed ? parsed.fault : onLength(parsed.mm);
      }}
    />
  );
}
