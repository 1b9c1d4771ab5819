// The crew lead's page: weld runs in laying order with method, metres and minutes, and the speeds behind them.
import { useState } from 'react';
import { formatMetres } from '../../core/units/lengths';
import { formatQuantity } from '../../core/units/figures';
import { KINDS } from '../../core/welding/kinds';
import type { WeldRun } from '../../core/welding/types';
import { Switch } from '../ui/Choice';
import { Ledger, LedgerRow, ObjectName, RestsLegend, Section } from '../ui/Ledger';
import { useStore } from '../ui/useStore';
import { QuantityRows } from './QuantityRows';
import { quantitiesFor, reasonsFor } from './quantitiesFor';
import { useLive, useSession } from './session';
import { WeldLog } from './WeldLog';
import { WeldRates } from './WeldRates';
import { WorkDays } from './WorkDays';

const JUMPS = [
  ['days', 'Days'],
  ['log', 'Log'],
  ['speeds', 'Speeds and crew'],
] as const;

export function WeldsStage() {
  const { job, estimate, actions } = useLive();
  return (
    <>
      <nav className="row-of-buttons jumps" aria-label="Parts of this stage">
        {JUMPS.map(([id, text]) => (
          <button
            key={id}
            type="button"
            onClick={() => document.getElementById(id)?.scrollIntoView({ block: 'start' })}
          >
            {text}
          </button>
        ))}
      </nav>
      <Section title="Welds">
        <Ledger label="Welds">
          {estimate && (
            <QuantityRows
              quantities={quantitiesFor('welds', estimate.quantities)}
              reasons={reasonsFor(job, estimate)}
            />
          )}
        </Ledger>
        <RestsLegend />
        <p className="row-of-buttons">
          <button type="button" onClick={() => actions.exportPack('welds.csv')}>
            Welds as CSV
          </button>
          <button type="button" onClick={() => actions.exportPack('roof.pdf')}>
            Roof map as PDF
          </button>
        </p>
        <p className="soft">
          Hot work near a roof edge: fall protection, a fire watch and a permit where the site asks for them.
          Test strips prove the settings before the first seam of each day.
        </p>
      </Section>
      <div id="days">{estimate && <WorkDays estimate={estimate} />}</div>
      <div id="log">{estimate && <WeldLog estimate={estimate} />}</div>
      <div id="speeds">
        <WeldRates />
      </div>
      {estimate && <RunList runs={estimate.weldPlan.runs} />}
    </>
  );
}

const SHOWN_AT_ONCE = 80;

function RunList({ runs }: { readonly runs: readonly WeldRun[] }) {
  const { job, actions } = useLive();
  const { selection } = useStore(useSession().document);
  const [which, setWhich] = useState<'all' | 'machine' | 'hand'>('all');
  const [shown, setShown] = useState(SHOWN_AT_ONCE);
  const listed = which === 'all' ? runs : runs.filter((run) => run.method === which);
  return (
    <Section
      title={`In laying order, ${listed.length}`}
      aside={
        <Switch
          label="Which welds"
          value={which}
          options={[
            { value: 'all', text: 'All' },
            { value: 'machine', text: 'Machine' },
            { value: 'hand', text: 'Hand' },
          ]}
          onChoose={setWhich}
        />
      }
    >
      <Ledger label="Weld runs" rows="named">
        {listed.slice(0, shown).map((run) => (
          <LedgerRow
            key={run.id}
            name={
              <button
                type="button"
                className={selection.some((p) => p.id === run.id) ? 'link on' : 'link'}
                onClick={() => actions.pick([{ kind: 'weld', id: run.id, roof: run.roof }])}
              >
                <span className="order">{run.order}</span> <ObjectName id={run.seam} />
                {run.seams.length > 1 && ` and ${run.seams.length - 1} more`}
              </button>
            }
            figure={formatMetres(run.length / 1000, job.display)}
            reason={`${KINDS[run.kind]}, ${run.method}, ${formatQuantity(minutesOf(run), 'min', job.display)}`}
          />
        ))}
      </Ledger>
      {listed.length > shown && (
        <button type="button" className="quiet" onClick={() => setShown(shown + 200)}>
          {listed.length - shown} more
        </button>
      )}
    </Section>
  );
}

function minutesOf(run: WeldRun): number {
  return (
    run.weldMinutes +
    run.handMinutes +
    run.setupMinutes +
    run.walkMinutes +
    run.turnMinutes +
    run.slowMinutes +
    run.nozzleMinutes
  );
}
