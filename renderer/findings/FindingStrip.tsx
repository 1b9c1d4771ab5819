// The strip under the plan: what is wrong with the layout, worst first, each a click from its spot; and it says
// so when nothing is.
import { useState } from 'react';
import type { Finding } from '../../core/verify/types';

export interface StripEntry {
  readonly finding: Pick<Finding, 'severity' | 'message' | 'rule' | 'source'>;
  readonly key: string;
  readonly onGo: (() => void) | null;
}

interface FindingStripProps {
  readonly entries: readonly StripEntry[];
  readonly state: 'none' | 'known' | 'lagging' | 'failed';
}

const SHOWN = 3;

export function FindingStrip({ entries, state }: FindingStripProps) {
  const [open, setOpen] = useState(false);
  const errors = entries.filter((entry) => entry.finding.severity === 'error').length;
  const listed = open ? entries : entries.slice(0, SHOWN);
  return (
    <section
      className={open ? 'findings open' : 'findings'}
      aria-label="Findings"
      data-lagging={state === 'lagging'}
    >
      <ol>
        {listed.map(({ finding, key, onGo }) => (
          <li key={key} className={finding.severity}>
            <button
              type="button"
              disabled={!onGo}
              onClick={onGo ?? undefined}
              title={`${finding.message}\n${finding.source}`}
            >
              {finding.message}
            </button>
          </li>
        ))}
      </ol>
      <p>
        {state === 'none' && 'Nothing is laid yet.'}
        {state !== 'none' && entries.length === 0 && 'Nothing stands against this layout.'}
        {entries.length > SHOWN && (
          <button type="button" className="quiet" aria-expanded={open} onClick={() => setOpen(!open)}>
            {open ? 'Fewer' : `${entries.length - SHOWN} more`}
          </button>
        )}
        {entries.length > 0 &&
          entries.length <= SHOWN &&
          (errors === 0 ? 'No error stands.' : 'Nothing else stands.')}
      </p>
    </section>
  );
}
