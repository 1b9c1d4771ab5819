// One entry of the log, written on a tablet with a thumb: what was done, on which seam or sheet, by whom, and what was
// found. The next one in order is offered, so that a day's work is a touch an entry.
import { useState } from 'react';
import type { JobIssue, LogEntry } from '../../core/job/schema';
import { judge, logCommand, nextToLog, stripDueNow, type CrewView, type LogDraft } from '../document/crew';
import { Choice, Switch } from '../ui/Choice';
import { DraftField } from '../ui/DraftField';
import { NumberField } from '../ui/NumberField';
import { useStore } from '../ui/useStore';
import { useLive, useSession } from './session';

export const LOG_KINDS: readonly { readonly value: LogEntry['kind']; readonly text: string }[] = [
  { value: 'strip', text: 'Test strip' },
  { value: 'laid', text: 'Laid' },
  { value: 'welded', text: 'Welded' },
  { value: 'probed', text: 'Probed' },
  { value: 'cut-out', text: 'Cut-out' },
  { value: 'repaired', text: 'Repaired' },
];

type PeelUnit = NonNullable<LogEntry['reading']>['unit'];

const RESULTS: readonly { readonly value: NonNullable<LogEntry['result']>; readonly text: string }[] = [
  { value: 'reinforcement bared', text: 'Reinforcement bare over the whole weld' },
  { value: 'sheet tore beside', text: 'Sheet tore outside the weld' },
  { value: 'bared in part', text: 'Bare over a part of the weld' },
  { value: 'peeled clean', text: 'Peeled clean' },
];

const UNITS = ['lbf/in', 'N/50 mm', 'N/25 mm', 'N/mm'].map((unit) => ({
  value: unit as PeelUnit,
  text: unit,
}));

interface LogFormProps {
  readonly issue: JobIssue;
  readonly crew: CrewView;
}

export function LogForm({ issue, crew }: LogFormProps) {
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
  const [unit, setUnit] = useState<PeelUnit>('lbf/in');
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
  const next = nextToLog(job, issue, crew, draft.kind);
  const due = stripDueNow(job, draft);
  const judged = trial && draft.result ? judge({ ...draft, target: job.rates.welding.peelTarget }) : null;
  const write = (): void => {
    // A window left open overnight writes the day on which it is used.
    const dated = { ...draft, date: today() };
    const kept = trial ? dated : { ...dated, result: null, reading: null };
    const refusal = actions.run(
      logCommand(job, issue, draft.kind === 'strip' ? { ...kept, on: null } : kept),
    );
    if (refusal === null) set({ on: null, result: null, reading: null, note: '' });
  };
  const machines = job.rates.welding.machines.map(({ name }) => ({ value: name, text: name }));
  return (
    <div className="log-form">
      <Switch
        label="What was done"
        value={draft.kind}
        options={LOG_KINDS}
        onChoose={(kind) => set({ kind, on: null })}
      />
      {due.length > 0 && draft.kind === 'welded' && (
        <p className="fault">A test strip is due first: {due.join(', ')}.</p>
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
          {next !== null && next !== draft.on && (
            <button type="button" onClick={() => set({ on: next })}>
              Next: {next}
            </button>
          )}
          {picked !== undefined && picked !== next && picked !== draft.on && (
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
              onValue={(value) => set({ reading: value === null ? null : { value, unit } })}
            />
            <Choice
              label="Unit"
              value={unit}
              options={UNITS}
              onChoose={(chosen) => {
                setUnit(chosen);
                if (draft.reading) set({ reading: { ...draft.reading, unit: chosen } });
              }}
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
      <span className="log-line">
        <DraftField
          label="Lead or supply"
          labelled="visible"
          shown={draft.lead}
          align="left"
          placeholder="where it changed"
          onCommit={(lead) => set({ lead: lead.trim() })}
        />
        <DraftField
          label="Note"
          labelled="visible"
          shown={draft.note}
          align="left"
          onCommit={(note) => set({ note: note.trim() })}
        />
      </span>
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

/** Today by the window's clock, YYYY-MM-DD. */
export function today(): string {
  const now = new Date();
  const two = (value: number) => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
