// What a person pinned: end laps by place, and what of a roof's laying a search keeps. A pin that no longer applies
// says so, and a moved end lap says what it breaks.
import { lapsAtPins } from '../../core/job/pins';
import type { Job, JobRoof } from '../../core/job/schema';
import { formatAngle } from '../../core/units/angles';
import { formatLength } from '../../core/units/lengths';
import { Ledger, LedgerRow, ObjectName, Section } from '../ui/Ledger';
import { useStore } from '../ui/useStore';
import { useLive, useSession } from './session';

export function PinPanel() {
  const { job, estimate } = useLive();
  const { pinEffect } = useSession();
  const effect = useStore(pinEffect);
  const roofs = Object.values(job.roofs);
  const pinned = roofs.filter((roof) => (roof.laying.pins ?? []).length > 0);
  const kept = roofs.filter(({ laying }) => laying.order !== undefined || (laying.keep ?? []).length > 0);
  if (
    !estimate?.roofs.some(({ seams }) => seams && seams.endLaps.length > 0) &&
    pinned.length + kept.length === 0
  )
    return null;
  return (
    <Section title="Pinned">
      <p className="soft">
        Drag an end lap along its course, or pick it and use the arrow keys: it stays there, and the rest is
        laid around it.
      </p>
      {effect && (
        <div role="status" className={effect.broken.length > 0 ? 'pin-effect broken' : 'pin-effect'}>
          {effect.broken.length === 0 ? (
            <p>{effect.moving ? 'There it breaks no rule.' : 'The change of pins breaks no rule.'}</p>
          ) : (
            <>
              <p>{effect.moving ? 'There it breaks:' : 'The change of pins breaks:'}</p>
              <ul>
                {effect.broken.map((finding, k) => (
                  <li key={k}>{finding.message}</li>
                ))}
              </ul>
            </>
          )}
        </div>
      )}
      {kept.length > 0 && (
        <Ledger label="Pinned choices">
          {kept.map((roof) => (
            <KeptChoices key={roof.id} roof={roof} several={roofs.length > 1} />
          ))}
        </Ledger>
      )}
      <Ledger label="Pinned end laps">
        {pinned.map((roof) => (
          <Pins key={roof.id} roof={roof} several={roofs.length > 1} />
        ))}
      </Ledger>
    </Section>
  );
}

function Pins({ roof, several }: { readonly roof: JobRoof; readonly several: boolean }) {
  const { estimate, actions } = useLive();
  const pins = roof.laying.pins ?? [];
  const result = estimate?.roofs.find((one) => one.id === roof.id);
  const laps = result?.seams ? lapsAtPins(result.seams, pins, result.mmPerPoint) : null;
  return pins.map((pin, index) => {
    const lap = laps?.[index];
    return (
      <LedgerRow
        key={index}
        name={
          <button
            type="button"
            className="link"
            onClick={() => {
              actions.pick([{ kind: 'pin', id: String(index), roof: roof.id }]);
              actions.jumpTo(roof.page, pin);
            }}
          >
            {several ? `${roof.name}, pin` : 'Pin'} {index + 1}
          </button>
        }
        figure={lap ? <ObjectName id={lap.id} /> : laps ? 'no longer applies' : '—'}
        reason={
          <>
            {laps && !lap && 'no sheet here can end so: too near an edge, or a piece too short '}
            <button
              type="button"
              className="quiet"
              aria-label={`Let go of pin ${index + 1} of ${roof.name}`}
              onClick={() => actions.run({ kind: 'unpinEndLap', roof: roof.id, index })}
            >
              Let go
            </button>
          </>
        }
      />
    );
  });
}

type Kept = NonNullable<JobRoof['laying']['keep']>[number];

const KEPT_NAMES: Readonly<Record<Kept, string>> = {
  direction: 'Direction',
  firstCourse: 'First course',
  closing: 'Last course',
};

/** What a search leaves as it is, and the order of the courses, which none changes. */
function KeptChoices({ roof, several }: { readonly roof: JobRoof; readonly several: boolean }) {
  const { job, actions } = useLive();
  const { order, ...laying } = roof.laying;
  const whose = several ? `, ${roof.name}` : '';
  const set = (next: JobRoof['laying'], label: string) =>
    actions.run({ kind: 'setRoof', roof: roof.id, fields: { laying: next } }, label);
  const letGo = (name: string, next: JobRoof['laying']) => (
    <button
      type="button"
      className="quiet"
      aria-label={`Let go of ${name.toLowerCase()} of ${roof.name}`}
      onClick={() => set(next, 'Let the search choose')}
    >
      Let go
    </button>
  );
  const shown: Readonly<Record<Kept, string>> = {
    direction: laying.direction === 'auto' ? '—' : formatAngle(laying.direction),
    firstCourse: laying.firstCourse === null ? 'low edge' : formatLength(laying.firstCourse, job.display),
    closing: closingName(laying.closing, job),
  };
  return (
    <>
      {(laying.keep ?? []).map((what) => (
        <LedgerRow
          key={what}
          name={`${KEPT_NAMES[what]}${whose}`}
          figure={shown[what]}
          reason={letGo(KEPT_NAMES[what], without(roof.laying, what))}
        />
      ))}
      {order && (
        <LedgerRow
          name={`Laid first${whose}`}
          figure={order === 'up' ? 'course 1' : 'last course'}
          reason={letGo('Laid first', laying)}
        />
      )}
    </>
  );
}

function closingName(closing: JobRoof['laying']['closing'], job: Job): string {
  if (!closing) return 'whole sheet';
  if (closing.kind === 'rip') return `${closing.lanes} lanes`;
  return job.rates.rolls.find(({ id }) => id === closing.roll)?.name ?? closing.roll;
}

function without({ keep = [], ...laying }: JobRoof['laying'], what: Kept): JobRoof['laying'] {
  const next = keep.filter((one) => one !== what);
  return next.length === 0 ? laying : { ...laying, keep: next };
}

interface KeepToggleProps {
  readonly roof: JobRoof;
  readonly what: Kept;
}

/** Whether the search leaves a choice as it is. */
export function KeepToggle({ roof, what }: KeepToggleProps) {
  const { actions } = useLive();
  const { keep = [] } = roof.laying;
  const kept = keep.includes(what);
  return (
    <button
      type="button"
      className={kept ? 'quiet on' : 'quiet'}
      aria-pressed={kept}
      title="Whether a search leaves this as it is"
      onClick={() =>
        actions.run(
          {
            kind: 'setRoof',
            roof: roof.id,
            fields: { laying: kept ? without(roof.laying, what) : { ...roof.laying, keep: [...keep, what] } },
          },
          kept ? 'Let the search choose' : 'Keep in searches',
        )
      }
    >
      {kept ? 'kept in searches' : 'keep in searches'}
    </button>
  );
}
