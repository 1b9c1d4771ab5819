// One working day: its courses to move, its hours, strips and tasks.
import type { PointerEvent as Press } from 'react';
import { formatMetres } from '../../core/units/lengths';
import { formatNumber } from '../../core/units/numbers';
import { hoursOf } from '../../core/welding/clock';
import type { WorkDay } from '../../core/welding/types';
import type { CoursePlace } from './courseDrag';
import { DayClockList } from './DayClockList';
import { useLive } from './session';

interface DayCardProps {
  readonly day: WorkDay;
  /** The course that is picked up or dragged. */
  readonly held: CoursePlace | null;
  readonly over: boolean;
  readonly onHold: (held: CoursePlace) => void;
  readonly onPress: (course: CoursePlace, event: Press) => void;
  /** Set while a course is picked up. */
  readonly onMove: ((held: CoursePlace, day: number) => void) | null;
}

export function DayCard({ day, held, over, onHold, onPress, onMove }: DayCardProps) {
  const { job, actions } = useLive();
  const courses = [...new Map(day.sheets.map((s) => [`${s.roof} ${s.course}`, s])).values()];
  const lit = (course: CoursePlace) =>
    actions.pick(
      day.sheets
        .filter((sheet) => sheet.roof === course.roof && sheet.course === course.course)
        .map((sheet) => ({ kind: 'sheet' as const, id: sheet.sheet, roof: sheet.roof })),
    );
  return (
    <li data-day={day.number} className={over ? 'over' : undefined}>
      <div className="day-head">
        <strong>Day {day.number}</strong>
        <span>{day.date ?? ''}</span>
        <span>{hoursOf(day)}</span>
        <span className="day-figure">{formatMetres(day.weld / 1000, job.display)}</span>
        <span className="day-figure">
          {formatNumber(day.minutes / 60, 1)} of {formatNumber(day.capacity / 60, 0)} h
        </span>
      </div>
      <span
        className="day-bar"
        role="img"
        aria-label={`${Math.round((100 * day.minutes) / day.capacity)} % of the crew's hours`}
      >
        <span style={{ width: `${Math.min(100, (100 * day.minutes) / day.capacity)}%` }} />
      </span>
      <div className="chips">
        {courses.map((course) => (
          <button
            key={`${course.roof} ${course.course}`}
            type="button"
            className={held?.roof === course.roof && held.course === course.course ? 'chip on' : 'chip'}
            onPointerDown={(event) => onPress(course, event)}
            onClick={() => {
              onHold(course);
              lit(course);
            }}
          >
            Course {course.name}
          </button>
        ))}
        {courses.length === 0 && <span className="soft">Flashings and details</span>}
        {onMove && held && (
          <button type="button" className="chip" onClick={() => onMove(held, day.number)}>
            Course {held.name} waits for this day
          </button>
        )}
      </div>
      <details>
        <summary>
          By the clock: {day.strips.length} test strips
          {day.night
            ? `, closed on ${formatMetres(day.night.length / 1000, job.display)}`
            : ', nothing left open'}
        </summary>
        <DayClockList day={day} />
        <ul className="plain">
          {day.tasks.map((task) => (
            <li key={task.name} title={task.formula}>
              {task.name}: {formatNumber(task.minutes / 60, 1)} h
            </li>
          ))}
          {day.machineMinutes.map((minutes, k) => (
            <li key={job.rates.welding.machines[k]?.name ?? k}>
              {job.rates.welding.machines[k]?.name ?? 'Machine'} runs {formatNumber(minutes / 60, 1)} of{' '}
              {formatNumber(day.machineCapacity / 60, 1)} h
            </li>
          ))}
        </ul>
      </details>
    </li>
  );
}
