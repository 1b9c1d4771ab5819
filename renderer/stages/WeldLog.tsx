// Issue the layout, then write what was done and found: large fields for a tablet, one entry at a time.
import { useState } from 'react';
import { formatMetres } from '../../core/units/lengths';
import { formatNumber } from '../../core/units/numbers';
import type { Estimate } from '../../core/job/result';
import type { JobIssue, LogEntry } from '../../core/job/schema';
import {
  crewView,
  issueCommand,
  issuesOf,
  judge,
  logCommand,
  logOf,
  stripDueNow,
  type CrewView,
  type LogDraft,
} from '../document/crew';
import { Choice, Switch } from '../ui/Choice';
import { DraftField } from '../ui/DraftField';
import { NumberField } from '../ui/NumberField';
import { Ledger, LedgerRow, ObjectName, Section } from '../ui/Ledger';
import { useStore } from '../ui/useStore';
import { useLive, useSession } from './session';

export function WeldLog({ estimate }: { readonly estimate: Estimate }) {
  const { job, lagging, actions } = useLive();
  const issue = issuesOf(job).at(-1);
  const issueNow = (): void => {
    const command = issueCommand(job, estimate, today(), '');
    if ('refusal' in command) actions.say(command.refusal, true);
    else actions.run(command);
  };
  return (
    <>
      <Section title={issue ? `Issue ${issue.number}, ${issue.date}` : 'Not issued yet'}>
        <p className="soft">
          {issue
            ? 'Labels, log and deliveries point at this issue; what is laid anew does not change it.'
            : 'Before the crew welds, the layout is issued: frozen under a number and a date. Labels, log and deliveries point at it.'}
        </p>
        <p className="row-of-buttons">
          <button type="button" disabled={lagging} onClick={issueNow}>
            Issue the layout as number {(issue?.number ?? 0) + 1}
          </button>
        </p>
      </Section>
      {issue && <Written issue={issue} />}
    </>
  );
}

function Written({ issue }: { readonly issue: JobIssue }) {
  const { job } = useLive();
  const view = crewView(job, issue, today());
  const log = logOf(job);
  return (
    <>
      <Section title="Progress">
        <Progress crew={view} />
      </Section>
      <Section title="Write in the log">
        <EntryForm issue={issue} />
      </Section>
      {log.length > 0 && (
        <Section title={`Log, ${log.length}`}>
          <Ledger label="Weld log" rows="named">
            {[...log]
              .reverse()
              .slice(0, 60)
              .map((entry) => (
                <LogRow key={entry.id} entry={entry} />
              ))}
          </Ledger>
        </Section>
      )}
    </>
  );
}

function Progress({ crew }: { readonly crew: CrewView }) {
  const { job, view, actions } = useLive();
  const most = Math.max(1, ...crew.progress.map((day) => day.planned));
  const seamsIn = (state: string) => crew.states.filter((one) => one.state === state).map(({ seam }) => seam);
  const states = ['planned', 'laid', 'welded', 'probed', 'tested', 'repaired', 'to be re-probed'].filter(
    (state) => seamsIn(state).length > 0,
  );
  return (
    <>
      <p className="row-of-buttons">
        {states.map((state) => (
          <button
            key={state}
            type="button"
            className={view.why === `state ${state}` ? 'on' : undefined}
            title="Lights them on the plan"
            onClick={() => actions.explain({ key: `state ${state}`, from: seamsIn(state) })}
          >
            {seamsIn(state).length} {state}
          </button>
        ))}
      </p>
      {crew.again > 0 && (
        <p className="fault" role="alert">
          {crew.again} {crew.again === 1 ? 'seam is' : 'seams are'} to be probed again after a failed test:{' '}
          {crew.states
            .filter((one) => one.state === 'to be re-probed')
            .map((one) => one.seam)
            .join(', ')}
        </p>
      )}
      <ol className="progress" aria-label="Metres by day">
        {crew.progress.map((day) => (
          <li key={day.day}>
            <span>Day {day.day}</span>
            <span className="progress-bar" style={{ width: `${(60 * day.planned) / most}%` }}>
              <span style={{ width: `${day.planned > 0 ? (100 * day.welded) / day.planned : 0}%` }} />
            </span>
            <span>
              {formatNumber(day.welded, 0)} of {formatMetres(day.planned, job.display)}
            </span>
          </li>
        ))}
      </ol>
      {crew.unmapped.length > 0 && (
        <details>
          <summary>{crew.unmapped.length} entries of earlier issues do not map to this one</summary>
          <ul className="plain">
            {crew.unmapped.map(({ entry, why }) => (
              <li key={entry.id}>
                {entry.number}. {entry.on}, issue {entry.issue}: {why}
              </li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}

const KINDS: readonly { readonly value: LogEntry['kind']; readonly text: string }[] = [
  { value: 'strip', text: 'Trial strip' },
  { value: 'laid', text: 'Laid' },
  { value: 'welded', text: 'Welded' },
  { value: 'probed', text: 'Probed' },
  { value: 'cut-out', text: 'Cut-out' },
  { value: 'repaired', text: 'Repaired' },
];

const RESULTS: readonly { readonly value: NonNullable<LogEntry['result']>; readonly text: string }[] = [
  { value: 'reinforcement bared', text: 'Reinforcement bare over the whole weld' },
  { value: 'sheet tore beside', text: 'Sheet tore outside the weld' },
  { value: 'bared in part', text: 'Bare over a part of the weld' },
  { value: 'peeled clean', text: 'Peeled clean' },
];

const UNITS = ['lbf/in', 'N/50 mm', 'N/25 mm', 'N/mm'].map((unit) => ({
  value: unit as NonNullable<LogEntry['reading']>['unit'],
  text: unit,
}));

function EntryForm({ issue }: { readonly issue: JobIssue }) {
  const { job, actions } = useLive();
  const { selection } = useStore(useSession().document);
  const [draft, setDraft] = useState<LogDraft>(() => ({
    kind: 'strip',
    date: today(),
    on: null,
    machine: job.rates.welding.machines[0]?.name ?? '',
    operator: '',
    lead: '',
    speed: null,
    temperature: null,
    ambient: null,
    result: null,
    reading: null,
    note: '',
  }));
  const set = (fields: Partial<LogDraft>): null => {
    setDraft((before) => ({ ...before, ...fields }));
    return null;
  };
  const trial = draft.kind === 'strip' || draft.kind === 'cut-out';
  const items = issue.roofs.flatMap(({ seams, sheets }) =>
    draft.kind === 'laid'
      ? sheets.map(({ id }) => id)
      : [...seams].sort((a, b) => a.order - b.order).map(({ id }) => id),
  );
  const picked = selection.map(({ id }) => id).find((id) => items.includes(id));
  const due = stripDueNow(job, draft);
  const judged = trial && draft.result ? judge({ ...draft, target: job.rates.welding.peelTarget }) : null;
  const write = (): void => {
    const kept = trial ? draft : { ...draft, result: null, reading: null };
    const refusal = actions.run(
      logCommand(job, issue, draft.kind === 'strip' ? { ...kept, on: null } : kept),
    );
    if (refusal === null) set({ result: null, reading: null });
  };
  const machines = job.rates.welding.machines.map(({ name }) => ({ value: name, text: name }));
  return (
    <div className="log-form">
      <Switch
        label="What was done"
        value={draft.kind}
        options={KINDS}
        onChoose={(kind) => set({ kind, on: null })}
      />
      {due.length > 0 && draft.kind === 'welded' && (
        <p className="fault">A trial strip is due first: {due.join(', ')}.</p>
      )}
      {draft.kind !== 'strip' && (
        <span className="log-line">
          <Choice
            label={draft.kind === 'laid' ? 'Sheet' : 'Seam'}
            labelled="visible"
            value={draft.on}
            options={items.map((id) => ({ value: id, text: id }))}
            onChoose={(on) => set({ on })}
          />
          {picked !== undefined && picked !== draft.on && (
            <button type="button" onClick={() => set({ on: picked })}>
              {picked}, picked on the plan
            </button>
          )}
        </span>
      )}
      <span className="log-line">
        <Choice
          label="Machine"
          labelled="visible"
          value={draft.machine}
          options={[...machines, { value: 'Hand gun', text: 'Hand gun' }]}
          onChoose={(machine) => set({ machine })}
        />
        <DraftField
          label="Initials"
          labelled="visible"
          shown={draft.operator}
          align="left"
          onCommit={(operator) => set({ operator: operator.trim() })}
        />
      </span>
      <span className="log-line">
        <Measure
          name="Speed"
          unit="m/min"
          value={draft.speed}
          onValue={(speed) => set({ speed: speed || null })}
        />
        <Measure
          name="Nozzle"
          unit="°C"
          value={draft.temperature}
          onValue={(temperature) => set({ temperature })}
        />
        <Measure name="Air" unit="°C" value={draft.ambient} onValue={(ambient) => set({ ambient })} />
      </span>
      {trial && (
        <>
          <span className="log-results" role="radiogroup" aria-label="How it came apart">
            {RESULTS.map(({ value, text }) => (
              <button
                key={value}
                type="button"
                role="radio"
                aria-checked={draft.result === value}
                onClick={() => set({ result: value })}
              >
                {text}
              </button>
            ))}
          </span>
          <span className="log-line">
            <Measure
              name="Reading"
              unit=""
              value={draft.reading?.value ?? null}
              onValue={(value) =>
                set({ reading: value === null ? null : { value, unit: draft.reading?.unit ?? 'lbf/in' } })
              }
            />
            <Choice
              label="Unit"
              value={draft.reading?.unit ?? 'lbf/in'}
              options={UNITS}
              onChoose={(unit) => set({ reading: { value: draft.reading?.value ?? 0, unit } })}
            />
          </span>
        </>
      )}
      {judged && (
        <p className={judged.passes ? 'soft' : 'fault'} role="status">
          {judged.passes ? 'Good. ' : 'Not good. '}
          {judged.why} {judged.follow}
        </p>
      )}
      <button type="button" className="log-write" onClick={write}>
        Write it down
      </button>
    </div>
  );
}

interface MeasureProps {
  readonly name: string;
  readonly unit: string;
  readonly value: number | null;
  readonly onValue: (value: number | null) => null;
}

/** A number that may be left open. */
function Measure({ name, unit, value, onValue }: MeasureProps) {
  if (value !== null)
    return (
      <NumberField label={name} labelled="visible" value={value} unit={unit} least={-40} onNumber={onValue} />
    );
  return (
    <DraftField
      label={name}
      labelled="visible"
      shown=""
      placeholder={unit || 'none'}
      onCommit={(text) => {
        const number = Number(text.replace(',', '.'));
        if (text.trim() === '') return onValue(null);
        return Number.isFinite(number) ? onValue(number) : 'Write digits such as 3.2.';
      }}
    />
  );
}

function LogRow({ entry }: { readonly entry: LogEntry }) {
  const judged = judge(entry);
  const kind = KINDS.find(({ value }) => value === entry.kind)?.text ?? entry.kind;
  return (
    <LedgerRow
      name={
        <>
          {entry.number}. {kind} {entry.on !== null && <ObjectName id={entry.on} />}
        </>
      }
      figure={judged ? judged.passes ? 'good' : <span className="fault">not good</span> : ''}
      reason={[entry.date, entry.operator, entry.machine, `issue ${entry.issue}`].filter(Boolean).join(', ')}
    />
  );
}

function today(): string {
  const now = new Date();
  const two = (value: number) => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
