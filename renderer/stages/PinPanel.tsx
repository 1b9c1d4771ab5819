// What a person pinned: end laps by place, and whether the search keeps a typed direction or first course. A pin that
// no longer applies says so, and a moved end lap says what it breaks.
import { lapsAtPins } from '../../core/job/pins';
import type { JobRoof } from '../../core/job/schema';
import { Ledger, LedgerRow, ObjectName, Section } from '../ui/Ledger';
import { useStore } from '../ui/useStore';
import { useLive, useSession } from './session';

export function PinPanel() {
  const { job, estimate } = useLive();
  const { pinEffect } = useSession();
  const effect = useStore(pinEffect);
  const roofs = Object.values(job.roofs);
  const pinned = roofs.filter((roof) => (roof.laying.pins ?? []).length > 0);
  if (!estimate?.roofs.some(({ seams }) => seams && seams.endLaps.length > 0) && pinned.length === 0)
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

interface KeepToggleProps {
  readonly roof: JobRoof;
  readonly what: 'direction' | 'firstCourse';
}

/** Whether the search leaves a typed figure as it is. */
export function KeepToggle({ roof, what }: KeepToggleProps) {
  const { actions } = useLive();
  const { keep = [], ...laying } = roof.laying;
  const kept = keep.includes(what);
  const next = kept ? keep.filter((one) => one !== what) : [...keep, what];
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
            fields: { laying: next.length === 0 ? laying : { ...laying, keep: next } },
          },
          kept ? 'Let the search choose' : 'Keep in searches',
        )
      }
    >
      {kept ? 'kept in searches' : 'keep in searches'}
    </button>
  );
}
