// The crew's commands and views of the job, for panels: issue the layout, write the log, see how seams stand.
import type { Command } from '../../core/job/commands/types';
import { carryLog, type Unmapped } from '../../core/job/issueCarry';
import { issueLayout } from '../../core/job/issueLayout';
import type { Estimate } from '../../core/job/result';
import type { Job, JobIssue, LogEntry } from '../../core/job/schema';
import {
  issuesOf,
  logOf,
  progressByDay,
  seamStates,
  stripDue,
  toProbeAgain,
  verdictOf,
  type DayProgress,
  type SeamStanding,
} from '../../core/job/weldLog';

export { issuesOf, logOf };

export type LogDraft = Omit<LogEntry, 'id' | 'number' | 'issue' | 'membrane' | 'target' | 'at' | 'roof'>;

/** `date` is today's, from the window. */
export function issueCommand(
  job: Job,
  estimate: Estimate,
  date: string,
  note: string,
): Command | { readonly refusal: string } {
  const number = (issuesOf(job).at(-1)?.number ?? 0) + 1;
  const issued = issueLayout(estimate, { id: `issue-${number}`, number, date, note });
  return 'refusal' in issued ? issued : { kind: 'addIssue', issue: issued.issue };
}

/** The entry stands in the middle of what it is on; the roof is the one whose issue holds that id. */
export function logCommand(job: Job, issue: JobIssue, draft: LogDraft): Command {
  const number = (logOf(job).at(-1)?.number ?? 0) + 1;
  const roof = issue.roofs.find(
    ({ seams, sheets }) =>
      seams.some(({ id }) => id === draft.on) || sheets.some(({ id }) => id === draft.on),
  );
  const seam = roof?.seams.find(({ id }) => id === draft.on);
  const at = seam ? ([(seam.from[0] + seam.to[0]) / 2, (seam.from[1] + seam.to[1]) / 2] as const) : null;
  return {
    kind: 'addLogEntry',
    entry: {
      ...draft,
      id: `log-${number}`,
      number,
      issue: issue.number,
      roof: roof?.roof ?? null,
      at,
      membrane: membraneOf(job),
      target: job.rates.welding.peelTarget,
    },
  };
}

export interface CrewView {
  readonly states: readonly SeamStanding[];
  readonly again: number;
  readonly unmapped: readonly Unmapped[];
  readonly progress: readonly DayProgress[];
}

/** How the latest issue stands at the end of a date. */
export function crewView(job: Job, issue: JobIssue, date: string): CrewView {
  const [issues, log] = [issuesOf(job), logOf(job)];
  return {
    states: seamStates(issue, issues, log, date),
    again: toProbeAgain(issue, issues, log).length,
    unmapped: carryLog(log, issues, issue).unmapped,
    progress: progressByDay(issue, issues, log),
  };
}

/** What an entry of this kind is most likely on: the first in the order of work that still wants it. */
export function nextToLog(
  job: Job,
  issue: JobIssue,
  { states }: Pick<CrewView, 'states'>,
  kind: LogEntry['kind'],
): string | null {
  if (kind === 'laid') {
    const laid = new Set(
      carryLog(logOf(job), issuesOf(job), issue)
        .carried.filter(({ entry }) => entry.kind === 'laid')
        .map(({ entry, on }) => `${entry.roof}/${on}`),
    );
    const sheets = issue.roofs.flatMap(({ roof, sheets: own }) => own.map((sheet) => ({ roof, ...sheet })));
    return (
      [...sheets].sort((a, b) => a.day - b.day).find(({ roof, id }) => !laid.has(`${roof}/${id}`))?.id ?? null
    );
  }
  const wants = WANTED[kind];
  const order = new Map(
    issue.roofs.flatMap(({ roof, seams }) =>
      seams.map((seam) => [`${roof}/${seam.id}`, seam.order] as const),
    ),
  );
  const waiting = states
    .filter(({ state }) => wants.includes(state))
    .map((one) => ({ ...one, order: order.get(`${one.roof}/${one.seam}`) ?? Infinity }))
    .sort((a, b) => wants.indexOf(a.state) - wants.indexOf(b.state) || a.order - b.order);
  return waiting[0]?.seam ?? null;
}

/** Seams in these states want such an entry, the most pressing state first. */
const WANTED: Readonly<Record<Exclude<LogEntry['kind'], 'laid'>, readonly SeamStanding['state'][]>> = {
  welded: ['planned', 'laid'],
  probed: ['to be re-probed', 'welded'],
  repaired: ['to be re-probed'],
  strip: [],
  'cut-out': [],
};

export function stripDueNow(
  job: Job,
  draft: Pick<LogDraft, 'date' | 'machine' | 'operator' | 'lead' | 'ambient'>,
) {
  return stripDue(logOf(job), { ...draft, membrane: membraneOf(job) });
}

/** What a trial weld comes to; null for what is none. */
export function judge(entry: Parameters<typeof verdictOf>[0]) {
  return verdictOf(entry);
}

const membraneOf = ({ system }: Job): string => `${system.material} ${system.thickness} mm`;
