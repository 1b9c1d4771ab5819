// Issue the layout, see how its seams stand, and read what was written.
import { formatMetres } from '../../core/units/lengths';
import { formatNumber } from '../../core/units/numbers';
import type { Estimate } from '../../core/job/result';
import type { JobIssue, LogEntry } from '../../core/job/schema';
import { crewView, issueCommand, issuesOf, judge, logOf, type CrewView } from '../document/crew';
import { Ledger, LedgerRow, ObjectName, Section } from '../ui/Ledger';
import { LOG_KINDS, LogForm, today } from './LogForm';
import { useLive } from './session';

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
      <Section title="Write in the log">
        <Again crew={view} />
        <LogForm issue={issue} crew={view} />
      </Section>
      <Section title="Progress">
        <Progress crew={view} />
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

function Again({ crew }: { readonly crew: CrewView }) {
  if (crew.again === 0) return null;
  return (
    <p className="fault" role="alert">
      {crew.again} {crew.again === 1 ? 'seam is' : 'seams are'} to be probed again after a failed test:{' '}
      {crew.states
        .filter((one) => one.state === 'to be re-probed')
        .map((one) => one.seam)
        .join(', ')}
    </p>
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

function LogRow({ entry }: { readonly entry: LogEntry }) {
  const judged = judge(entry);
  const kind = LOG_KINDS.find(({ value }) => value === entry.kind)?.text ?? entry.kind;
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
