// Commands on the crew's work: calendar, moved courses, issues and the log. The log only grows: what was written
// stands, and a mistake is set right by another entry.
import { distance } from '../../geometry/ring';
import { toRoofPoint } from '../../plan/toRoof';
import { mmPerPointOf } from '../pageScale';
import { issueSchema, logEntrySchema, workSchema } from '../weldingSchema';
import { noSuch, refuse, withRecord } from './tables';
import type { CommandHandlers } from './types';

/** Two moves nearer than this on the roof, mm, are of the same course. */
const SAME_MOVE_MM = 100;

export const weldingCommands: CommandHandlers<'setWork' | 'moveCourse' | 'addIssue' | 'addLogEntry'> = {
  setWork: (job, { fields }) => {
    const work = { ...job.work, ...fields };
    const checked = workSchema.safeParse(work);
    if (!checked.success) {
      const issue = checked.error.issues[0];
      return refuse(
        `work.${issue?.path.map(String).join('.') ?? ''}: ${issue?.message ?? 'not a value this field takes'}`,
        'The old value was kept',
      );
    }
    if (work.order === 'windward first' && work.wind === null)
      return refuse(
        'Laying from the windward edge needs to know where the wind comes from',
        'Give the wind first, or choose another order before taking it back',
      );
    if (work.access && !job.roofs[work.access.roof]) return noSuch('roof', work.access.roof);
    return { job: { ...job, work } };
  },
  moveCourse: (job, { roof, at, day }) => {
    const record = job.roofs[roof];
    if (!record) return noSuch('roof', roof);
    if (day !== null && !(Number.isInteger(day) && day >= 1 && day <= 2000))
      return refuse(`There is no working day ${day}`, 'Give a whole number from 1');
    const scale = mmPerPointOf(job, record) ?? 1;
    const place = toRoofPoint(at, scale);
    const others = job.work.moved.filter(
      (move) => move.roof !== roof || distance(toRoofPoint(move.at, scale), place) > SAME_MOVE_MM,
    );
    const moved = day === null ? others : [...others, { roof, at, day }];
    return { job: { ...job, work: { ...job.work, moved } } };
  },
  addIssue: (job, { issue }) => {
    const checked = issueSchema.safeParse(issue);
    if (!checked.success)
      return refuse(
        `The issue does not hold together at ${checked.error.issues[0]?.path.map(String).join('.')}`,
        'Issue the layout again',
      );
    const last = Math.max(0, ...Object.values(job.issues).map(({ number }) => number));
    if (job.issues[issue.id] || issue.number !== last + 1)
      return refuse(`The next issue is number ${last + 1}`, 'Issue the layout again');
    return { job: { ...job, issues: withRecord(job.issues, issue) } };
  },
  addLogEntry: (job, { entry }) => {
    const checked = logEntrySchema.safeParse(entry);
    if (!checked.success) {
      const fault = checked.error.issues[0];
      return refuse(
        `${fault?.path.map(String).join(' ') ?? 'entry'}: ${fault?.message ?? ''}`,
        'Nothing was written',
      );
    }
    const issue = Object.values(job.issues).find(({ number }) => number === entry.issue);
    if (!issue) return refuse(`There is no issue ${entry.issue}`, 'Issue the layout before writing the log');
    if (job.log[entry.id]) return refuse('This entry is already written', 'Write another one');
    const last = Math.max(0, ...Object.values(job.log).map(({ number }) => number));
    if (entry.number !== last + 1) return refuse(`The next entry is number ${last + 1}`, 'Write it again');
    const trial = entry.kind === 'strip' || entry.kind === 'cut-out';
    if (trial && entry.result === null)
      return refuse('A trial weld needs to say how it came apart', 'Choose one of the four results');
    if (entry.kind !== 'strip') {
      const roof = issue.roofs.find((one) => one.roof === entry.roof);
      const known = entry.kind === 'laid' ? roof?.sheets : roof?.seams;
      if (!known?.some((one) => one.id === entry.on))
        return refuse(
          `${entry.on ?? 'Nothing'} is not ${entry.kind === 'laid' ? 'a sheet' : 'a seam'} of issue ${entry.issue}`,
          'Pick one that is',
        );
    }
    return { job: { ...job, log: withRecord(job.log, entry) } };
  },
};
