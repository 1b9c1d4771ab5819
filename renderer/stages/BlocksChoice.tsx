// Whether a sheet can be lifted over what stands on the roof.
import type { Blocks } from '../../core/roof/types';
import { Choice } from '../ui/Choice';

const WORDS = [
  { value: 'none', text: 'Can be dropped over' },
  { value: 'tall', text: 'Too tall to drop over' },
  { value: 'live', text: 'Live: may not be touched' },
] as const;

interface BlocksChoiceProps {
  readonly label: string;
  readonly value: Blocks;
  readonly onChoose: (blocks: Blocks) => void;
}

export function BlocksChoice({ label, value, onChoose }: BlocksChoiceProps) {
  return (
    <Choice
      label={label}
      value={value ?? 'none'}
      options={WORDS}
      onChoose={(chosen) => onChoose(chosen === 'none' ? null : chosen)}
    />
  );
}
