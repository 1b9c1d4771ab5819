// Name, figure, reason: three columns and thin rules. A figure that can explain itself opens in place.
import type { ReactNode } from 'react';

export interface Explained {
  readonly title: string;
  readonly formula: string;
  /** Which objects are lit, in short. */
  readonly from: string | null;
  readonly assumed: string | null;
}

interface LedgerRowProps {
  readonly name: ReactNode;
  readonly figure: ReactNode;
  readonly reason?: ReactNode;
  /** For a button that opens the explanation. */
  readonly onWhy?: () => void;
  readonly why?: Explained | null;
  readonly total?: boolean;
  /** Rests on a shipped value that nobody has confirmed. */
  readonly assumed?: boolean;
  /** The figure takes the room of the reason, which goes beneath it. */
  readonly wide?: boolean;
}

export function LedgerRow({ name, figure, reason, onWhy, why, total, assumed, wide }: LedgerRowProps) {
  return (
    <>
      <div className={`ledger-row${total ? ' total' : ''}${wide ? ' wide' : ''}`} role="row">
        <span className="ledger-name" role="rowheader">
          {name}
        </span>
        <span className="ledger-figure" role="cell">
          {onWhy ? (
            <button
              type="button"
              className={assumed ? 'figure-button rests' : 'figure-button'}
              aria-expanded={Boolean(why)}
              title={assumed ? 'Rests on shipped values that nobody has confirmed yet' : undefined}
              onClick={onWhy}
            >
              {figure}
              {assumed && <span className="unseen"> (assumed)</span>}
            </button>
          ) : (
            figure
          )}
        </span>
        <span className="ledger-reason" role="cell">
          {reason}
        </span>
      </div>
      {why && (
        <div className="why" role="note">
          <strong>{why.title}</strong>
          <p>{why.formula}</p>
          {why.from !== null && <p className="why-from">{why.from}</p>}
          {why.assumed !== null && <p className="assumed-note">Assumed: {why.assumed}</p>}
        </div>
      )}
    </>
  );
}

interface LedgerProps {
  readonly label: string;
  /** named: rows of objects, whose long names get the most room. */
  readonly rows?: 'figures' | 'named';
  readonly children: ReactNode;
}

export function Ledger({ label, rows = 'figures', children }: LedgerProps) {
  return (
    <div className={rows === 'named' ? 'ledger named' : 'ledger'} role="table" aria-label={label}>
      {children}
    </div>
  );
}

/** An object's name, which may break between its parts only: C07.1 | C08.2. */
export function ObjectName({ id }: { readonly id: string }) {
  return id.split('|').map((part, k) => (
    <span key={part} className="nowrap">
      {k > 0 && '|'}
      {part}
      <wbr />
    </span>
  ));
}

interface SectionProps {
  readonly title: string;
  readonly aside?: ReactNode;
  readonly children: ReactNode;
}

export function Section({ title, aside, children }: SectionProps) {
  return (
    <section className="section">
      <header>
        <h2>{title}</h2>
        {aside}
      </header>
      {children}
    </section>
  );
}

/** Says what the dotted line under a figure means. */
export function RestsLegend() {
  return (
    <p className="soft">
      <span className="rests">Dotted</span> figures rest on shipped values from common practice that nobody
      has confirmed yet. Click a figure to see which.
    </p>
  );
}

/** A closed drawer for what is seldom changed. */
export function Drawer({ title, children }: { readonly title: string; readonly children: ReactNode }) {
  return (
    <details className="drawer">
      <summary>{title}</summary>
      {children}
    </details>
  );
}

/** Marks a shipped figure until a person confirms or changes it. */
export function AssumedMark({ onConfirm }: { readonly onConfirm: () => void }) {
  return (
    <button
      type="button"
      className="assumed"
      title="A shipped value from common practice. Click to confirm it for this job, or type your own."
      onClick={onConfirm}
    >
      assumed
    </button>
  );
}
