// One line of typed text that is read when it is left or closed with Enter. What cannot be read stays as typed,
// with what is wrong and what to do beneath it; Escape brings the old value back.
import { useEffect, useId, useState } from 'react';
import type { ReactNode } from 'react';

export interface DraftFieldProps {
  readonly label: string;
  /** The value as written when nobody is typing. */
  readonly shown: string;
  /** Takes the text; returns what is wrong with it, or null. */
  readonly onCommit: (text: string) => string | null;
  readonly labelled?: 'visible' | 'hidden';
  readonly align?: 'left' | 'right';
  readonly placeholder?: string;
  readonly after?: ReactNode;
  readonly disabled?: boolean;
}

export function DraftField(props: DraftFieldProps) {
  const {
    label,
    shown,
    onCommit,
    labelled = 'hidden',
    align = 'right',
    placeholder,
    after,
    disabled,
  } = props;
  const [draft, setDraft] = useState<string | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const id = useId();
  useEffect(() => {
    setDraft(null);
    setFault(null);
  }, [shown]);

  const commit = (): void => {
    if (draft === null || draft.trim() === shown) {
      setDraft(null);
      setFault(null);
      return;
    }
    const wrong = onCommit(draft);
    setFault(wrong);
    if (wrong === null) setDraft(null);
  };

  return (
    <span className="field">
      {labelled === 'visible' && <label htmlFor={id}>{label}</label>}
      <span className="field-line">
        <input
          id={id}
          aria-label={labelled === 'hidden' ? label : undefined}
          aria-invalid={fault !== null}
          aria-describedby={fault === null ? undefined : `${id}-fault`}
          className={align === 'right' ? 'figure' : undefined}
          value={draft ?? shown}
          placeholder={placeholder}
          disabled={disabled}
          spellCheck={false}
          autoComplete="off"
          onFocus={(event) => event.target.select()}
          onChange={(event) => setDraft(event.target.value)}
          onBlur={commit}
          onKeyDown={(event) => {
            if (event.key === 'Enter') commit();
            if (event.key !== 'Escape' || draft === null) return;
            event.stopPropagation();
            setDraft(null);
            setFault(null);
          }}
        />
        {after}
      </span>
      {fault !== null && (
        <span className="fault" id={`${id}-fault`} role="alert">
          {fault}
        </span>
      )}
    </span>
  );
}
