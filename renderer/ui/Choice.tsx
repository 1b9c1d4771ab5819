// One of a few: a list to choose from, or side by side where there is room.
import { useId } from 'react';

interface ChoiceProps<T extends string> {
  readonly label: string;
  readonly labelled?: 'visible' | 'hidden';
  /** null: several unequal values, or none yet. */
  readonly value: T | null;
  readonly options: readonly { readonly value: T; readonly text: string }[];
  readonly onChoose: (value: T) => void;
}

export function Choice<T extends string>({
  label,
  labelled = 'hidden',
  value,
  options,
  onChoose,
}: ChoiceProps<T>) {
  const id = useId();
  return (
    <span className="field">
      {labelled === 'visible' && <label htmlFor={id}>{label}</label>}
      <select
        id={id}
        aria-label={labelled === 'hidden' ? label : undefined}
        value={value ?? ''}
        onChange={(event) => {
          const chosen = options.find((option) => option.value === event.target.value);
          if (chosen) onChoose(chosen.value);
        }}
      >
        {value === null && <option value="">—</option>}
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.text}
          </option>
        ))}
      </select>
    </span>
  );
}

export function Switch<T extends string>({ label, value, options, onChoose }: ChoiceProps<T>) {
  return (
    <span className="switch" role="radiogroup" aria-label={label}>
      {options.map((option) => (
        <button
          key={option.value}
          type="button"
          role="radio"
          aria-checked={option.value === value}
          onClick={() => onChoose(option.value)}
        >
          {option.text}
        </button>
      ))}
    </span>
  );
}
