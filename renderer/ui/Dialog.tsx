// A question that must be answered before anything else: held by the browser's own modal dialog.
import { useEffect, useRef } from 'react';
import type { ReactNode } from 'react';

interface DialogProps {
  readonly title: string;
  readonly children: ReactNode;
  readonly onClose: () => void;
}

export function Dialog({ title, children, onClose }: DialogProps) {
  const ref = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const dialog = ref.current;
    if (dialog && !dialog.open) dialog.showModal();
  }, []);
  return (
    <dialog
      ref={ref}
      aria-label={title}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
      onClick={(event) => {
        if (event.target === ref.current) onClose();
      }}
    >
      <div className="dialog-body">
        <h2>{title}</h2>
        {children}
      </div>
    </dialog>
  );
}
