// The days of work: what is laid and welded on each, its hours, its strips, how it is closed. A course is picked up and
// set down on another day, by dragging or by two touches; what that breaks stands in the findings.
import { useState } from 'react';
import { formatMetres } from '../../core/units/lengths';
import { formatNumber } from '../../core/units/numbers';
import type { PagePoint } from '../../core/geometry/points';
import type { Estimate } from '../../core/job/result';
import type { Job } from '../../core/job/schema';
import type { WorkDay } from '../../core/welding/types';
import type { Picked } from '../document/picked';
import { Choice } from '../ui/Choice';
import { DraftField } from '../ui/DraftField';
import { Ledger, LedgerRow, Section } from '../ui/Ledger';
import { useStore } from '../ui/useStore';
import { useLive, useSession } from './session';

interface Held {
  readonly roof: string;
  readonly course: number;
}

export function WorkDays({ estimate }: { readonly estimate: Estimate }) {
  const { job, actions } = useLive();
  const [held, setHeld] = useState<Held | null>(null);
  const { days, leastDays, method, findings } = estimate.workPlan;
  if (days.length === 0) return null;
  const moveTo = (course: Held, day: number | null): void => {
    const roof = estimate.roofs.find((one) => one.id === course.roof);
    const [a, , c] = roof?.layout?.sheets.find((sheet) => sheet.course === course.course)?.corners ?? [];
    setHeld(null);
    if (!roof || !a || !c) return;
    const at = [(a[0] + c[0]) / 2 / roof.mmPerPoint, (a[1] + c[1]) / 2 / roof.mmPerPoint] as const;
    actions.run({ kind: 'moveCourse', roof: course.roof, at, day });
  };
  return (
    <Section title={`Days, ${days.length}`} aside={<span className="soft">least possible {leastDays}</span>}>
      <StartRows />
      {held && (
        <p className="soft" role="status">
          Course {held.course} is picked up. Touch the day it shall wait for.{' '}
          <button type="button" className="quiet" onClick={() => setHeld(null)}>
            Put back
          </button>
        </p>
      )}
      <ol className="days">
        {days.map((day) => (
          <Day key={day.number} day={day} held={held} onHold={setHeld} onMove={moveTo} />
        ))}
      </ol>
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
      {findings.map((finding) => (
        <p key={finding.message} className={finding.severity === 'error' ? 'fault' : 'soft'}>
          {finding.message}
        </p>
      ))}
      <p className="soft">{method}</p>
    </Section>
  );
}

function StartRows() {
  const { job, actions } = useLive();
  const { selection } = useStore(useSession().document);
  const set = (fields: Partial<Omit<typeof job.work, 'moved'>>) => actions.run({ kind: 'setWork', fields });
  const picked = selection.map((one) => accessAt(job, one)).find((place) => place !== null);
  return (
    <Ledger label="Calendar">
      <LedgerRow
        name="First day"
        figure={
          <DraftField
            label="First day"
            shown={job.work.start ?? ''}
            placeholder="year-month-day"
            onCommit={(text) => set({ start: text.trim() === '' ? null : text.trim() })}
          />
        }
        reason={job.work.start === null ? 'days are numbered until it is given' : 'weekends off'}
      />
      <LedgerRow
        name="Days lost"
        figure={
          <DraftField
            label="Days lost"
            shown={job.work.lost.join(' ')}
            placeholder="none"
            onCommit={(text) => set({ lost: text.split(/[\s,;]+/).filter(Boolean) })}
          />
        }
        reason="to weather or others, dates with spaces between"
      />
      <LedgerRow
        wide
        name="Access"
        figure={
          picked ? (
            <button type="button" onClick={() => set({ access: { roof: picked.roof, at: picked.at } })}>
              At the {picked.what} picked on the plan
            </button>
          ) : job.work.access ? (
            <button type="button" onClick={() => set({ access: null })}>
              Set. Take it back
            </button>
          ) : (
            <span className="soft">Pick the corner, edge or fitting where people and rolls come up</span>
          )
        }
      />
      <LedgerRow
        wide
        name="Order of laying"
        figure={
          <Choice
            label="Order of laying"
            value={job.work.order ?? 'open'}
            options={[
              { value: 'open', text: 'Low to high, not yet chosen' },
              { value: 'low to high', text: 'Low to high, laps shed water' },
              { value: 'high to low', text: 'Far end first, each course tucked under' },
            ]}
            onChoose={(value) => set({ order: value === 'open' ? null : value })}
          />
        }
      />
    </Ledger>
  );
}

/** A corner bears the id of the edge that starts there. */
function accessAt(
  job: Job,
  { kind, id, roof }: Picked,
): { readonly roof: string; readonly at: PagePoint; readonly what: string } | null {
  const edge = kind === 'edge' || kind === 'corner' ? job.edges[id] : undefined;
  const at = edge?.at ?? (kind === 'fitting' ? job.fittings[id]?.at : undefined);
  return at && roof !== null ? { roof, at, what: kind } : null;
}

interface DayProps {
  readonly day: WorkDay;
  readonly held: Held | null;
  readonly onHold: (held: Held | null) => void;
  readonly onMove: (held: Held, day: number) => void;
}

function Day({ day, held, onHold, onMove }: DayProps) {
  const { job, actions } = useLive();
  const courses = [...new Map(day.sheets.map((s) => [`${s.roof} ${s.course}`, s])).values()];
  const lit = (course: Held) =>
    actions.pick(
      day.sheets
        .filter((sheet) => sheet.roof === course.roof && sheet.course === course.course)
        .map((sheet) => ({ kind: 'sheet' as const, id: sheet.sheet, roof: sheet.roof })),
    );
  return (
    <li
      onDragOver={(event) => event.preventDefault()}
      onDrop={(event) => {
        event.preventDefault();
        if (held) onMove(held, day.number);
      }}
    >
      <div className="day-head">
        <strong>Day {day.number}</strong>
        <span>{day.date ?? ''}</span>
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
            draggable
            onDragStart={() => onHold(course)}
            onClick={() => {
              onHold(course);
              lit(course);
            }}
          >
            Course {course.course}
          </button>
        ))}
        {courses.length === 0 && <span className="soft">Flashings and details</span>}
        {held && (
          <button type="button" className="chip" onClick={() => onMove(held, day.number)}>
            Course {held.course} waits for this day
          </button>
        )}
      </div>
      <details>
        <summary>
          {day.strips.length} test strips
          {day.night
            ? `, closed on ${formatMetres(day.night.length / 1000, job.display)}`
            : ', nothing left open'}
        </summary>
        <ul className="plain">
          {day.strips.map((strip) => (
            <li key={strip.number}>
              {strip.machine === null
                ? 'Hand gun'
                : (job.rates.welding.machines[strip.machine]?.name ?? 'Machine')}
              , {strip.reason}
            </li>
          ))}
          {day.tasks.map((task) => (
            <li key={task.name}>
              {task.name}: {formatNumber(task.minutes / 60, 1)} h
            </li>
          ))}
        </ul>
      </details>
    </li>
  );
}
