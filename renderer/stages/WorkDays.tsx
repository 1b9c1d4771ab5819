// The days of work: what is laid and welded on each, its hours, its strips, how it is closed. A course goes to another
// day by dragging, or is picked up and set down by two touches or keys; what that breaks is said at once.
import { useState } from 'react';
import { formatNumber } from '../../core/units/numbers';
import type { Command } from '../../core/job/commands/types';
import type { Estimate } from '../../core/job/result';
import type { WorkPlan } from '../../core/welding/types';
import { Section } from '../ui/Ledger';
import { useCourseDrag, type CoursePlace } from './courseDrag';
import { DayCard } from './DayCard';
import { useLive } from './session';
import { SlowedTable } from './SlowedTable';
import { WorkCalendar } from './WorkCalendar';

const LABEL = 'Move a course to another day';
/** Room for what is said beside the pointer. */
const WORDS_PX = 340;

export function WorkDays({ estimate }: { readonly estimate: Estimate }) {
  const { job, lagging, actions } = useLive();
  const [held, setHeld] = useState<CoursePlace | null>(null);
  /** The plan before the last move: what the move brings with it is what this one does not have. */
  const [before, setBefore] = useState<{ readonly plan: WorkPlan; readonly said: string } | null>(null);
  const plan = estimate.workPlan;

  const moveTo = (course: CoursePlace, day: number | null): Command | null => {
    const roof = estimate.roofs.find((one) => one.id === course.roof);
    const [a, , c] = roof?.layout?.sheets.find((sheet) => sheet.course === course.course)?.corners ?? [];
    if (!roof || !a || !c) return null;
    const at = [(a[0] + c[0]) / 2 / roof.mmPerPoint, (a[1] + c[1]) / 2 / roof.mmPerPoint] as const;
    return { kind: 'moveCourse', roof: course.roof, at, day };
  };
  const words = ({ name }: CoursePlace, day: number): string => `Course ${name} on day ${day}`;
  const { drag, press } = useCourseDrag({
    onOver: (course, day) => {
      // From the start of the drag, so that the days stand still under the pointer.
      const still = drag && before ? before.plan : plan;
      const stays = day === null || liesOn(still, course, day);
      const command = stays ? null : moveTo(course, day);
      setBefore({ plan: still, said: stays ? '' : words(course, day) });
      if (command) actions.preview([command], LABEL);
      else actions.letGo();
    },
    onDrop: () => {
      if (before?.said === '') setBefore(null);
      actions.keep();
    },
    onCancel: () => {
      setBefore(null);
      actions.letGo();
    },
  });
  const setDown = (course: CoursePlace, day: number): void => {
    const command = moveTo(course, day);
    setHeld(null);
    if (!command) return;
    setBefore({ plan, said: words(course, day) });
    actions.run(command);
  };
  const shown = drag && before ? before.plan : plan;
  if (plan.days.length === 0) return null;
  const minutes = plan.days.reduce((sum, day) => sum + day.minutes, 0);
  return (
    <Section
      title={`Days, ${plan.days.length}`}
      aside={
        <span className="soft">
          {formatNumber(minutes / 60)} crew h; at the least {plan.leastDays} days,{' '}
          {formatNumber(plan.leastMinutes / 60)} h
        </span>
      }
    >
      <WorkCalendar />
      <p className="soft">
        Drag a course to another day, or pick it up and touch the day that it shall wait for.
      </p>
      {held && (
        <p className="soft" role="status">
          Course {held.name} is picked up. Touch the day it shall wait for.{' '}
          <button type="button" className="quiet" onClick={() => setHeld(null)}>
            Put back
          </button>
        </p>
      )}
      {before && !drag && (
        <Consequence before={before.plan} plan={plan} said={before.said} waiting={lagging} />
      )}
      <ol className="days">
        {shown.days.map((day) => (
          <DayCard
            key={day.number}
            day={day}
            held={held ?? drag?.course ?? null}
            over={drag?.day === day.number}
            onHold={setHeld}
            onPress={press}
            onMove={held ? setDown : null}
          />
        ))}
      </ol>
      {drag && before && (
        <div
          className="drag-words"
          style={{ left: Math.min(drag.x + 14, window.innerWidth - WORDS_PX), top: drag.y + 14 }}
        >
          {before.said === '' ? (
            <p>Course {drag.course.name}: let go over another day, or press Escape.</p>
          ) : (
            <Consequence before={before.plan} plan={plan} said={before.said} waiting={lagging} />
          )}
        </div>
      )}
      {job.work.moved.length > 0 && (
        <p className="row-of-buttons">
          {job.work.moved.map((move) => (
            <button
              key={`${move.roof} ${move.at.join(' ')}`}
              type="button"
              onClick={() => actions.run({ kind: 'moveCourse', roof: move.roof, at: move.at, day: null })}
            >
              Take back the move to day {move.day}
            </button>
          ))}
        </p>
      )}
      {plan.findings.map((finding) => (
        <p key={finding.message} className={finding.severity === 'error' ? 'fault' : 'soft'}>
          {finding.message}
        </p>
      ))}
      <SlowedTable plan={plan} />
      <p className="soft">{plan.method}</p>
    </Section>
  );
}

function liesOn({ days }: WorkPlan, { roof, course }: CoursePlace, number: number): boolean {
  return days.some(
    (day) =>
      day.number === number && day.sheets.some((sheet) => sheet.roof === roof && sheet.course === course),
  );
}

interface ConsequenceProps {
  readonly before: WorkPlan;
  readonly plan: WorkPlan;
  readonly said: string;
  /** The figures belong to an older job still. */
  readonly waiting: boolean;
}

/** What a move breaks: what is held against the plan now and was not before. */
function Consequence({ before, plan, said, waiting }: ConsequenceProps) {
  const known = new Set(before.findings.map(({ message }) => message));
  // What a move costs in days stands in the line above.
  const broken = plan.findings.filter(
    ({ rule, message }) => rule !== 'moved-courses-cost' && !known.has(message),
  );
  const [was, ends] = [before, plan].map(({ days }) => days.at(-1)?.number ?? 0);
  const hours = (of: WorkPlan) => formatNumber(of.days.reduce((sum, day) => sum + day.minutes, 0) / 60, 1);
  return (
    <div role="status" className="consequence">
      <strong>{said}</strong>
      {waiting ? (
        <p>…</p>
      ) : (
        <>
          <p>
            {ends === was
              ? `The work ends on day ${ends} as before`
              : `The work ends on day ${ends}, not ${was}`}
            , {hours(plan)} crew h instead of {hours(before)}.
          </p>
          {broken.length === 0 ? (
            <p>Nothing else is held against it.</p>
          ) : (
            broken.map(({ message }) => (
              <p key={message} className="fault">
                {message}
              </p>
            ))
          )}
        </>
      )}
    </div>
  );
}
