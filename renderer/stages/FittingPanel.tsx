// Pipes, drains, scuppers, posts and anchors: size, clear distance of drains, and whether a sheet can be dropped over.
import { Fragment } from 'react';
import type { FittingKind } from '../../core/roof/types';
import { formatLength, parseLength } from '../../core/units/lengths';
import { DRAIN_CLEAR_MM } from '../../core/verify/rules';
import { DraftField } from '../ui/DraftField';
import { LengthField } from '../ui/LengthField';
import { Ledger, LedgerRow, Section } from '../ui/Ledger';
import { useStore } from '../ui/useStore';
import { BlocksChoice } from './BlocksChoice';
import { useLive, useSession } from './session';

export const FITTING_WORDS: readonly { value: FittingKind; text: string }[] = [
  { value: 'pipe', text: 'Pipe' },
  { value: 'drain', text: 'Drain' },
  { value: 'scupper', text: 'Scupper' },
  { value: 'post', text: 'Post' },
  { value: 'anchor', text: 'Anchor' },
];

export function FittingPanel() {
  const { job, actions } = useLive();
  const { selection } = useStore(useSession().document);
  const fittings = Object.values(job.fittings);
  const setClear = (fitting: string, clear: number | null): string | null =>
    actions.run({ kind: 'setFitting', fitting, fields: { clear } });
  if (fittings.length === 0) return null;
  return (
    <Section title="Fittings">
      <Ledger label="Fittings">
        {fittings.map((fitting) => (
          <Fragment key={fitting.id}>
            <LedgerRow
              name={
                <button
                  type="button"
                  className={selection.some((p) => p.id === fitting.id) ? 'link on' : 'link'}
                  onClick={() => actions.pick([{ kind: 'fitting', id: fitting.id, roof: fitting.roof }])}
                >
                  {FITTING_WORDS.find((one) => one.value === fitting.kind)?.text}{' '}
                  {fitting.id.replace('f', '')}
                </button>
              }
              figure={
                <LengthField
                  label={`Size of ${fitting.kind} ${fitting.id}`}
                  mm={fitting.size}
                  display={job.display}
                  onLength={(size) =>
                    actions.run({ kind: 'setFitting', fitting: fitting.id, fields: { size } })
                  }
                />
              }
              reason={
                <>
                  {fitting.kind === 'scupper' ? 'wide ' : 'across '}
                  <button
                    type="button"
                    className="quiet"
                    onClick={() => actions.run({ kind: 'removeFitting', fitting: fitting.id })}
                  >
                    Remove
                  </button>
                </>
              }
            />
            {fitting.kind === 'drain' ? (
              <LedgerRow
                name="No lap within"
                figure={
                  <DraftField
                    label={`Clear distance of ${fitting.kind} ${fitting.id}`}
                    shown={fitting.clear === undefined ? '' : formatLength(fitting.clear, job.display)}
                    placeholder={formatLength(DRAIN_CLEAR_MM, job.display)}
                    onCommit={(text) => {
                      if (text.trim() === '') return setClear(fitting.id, null);
                      const parsed = parseLength(text, job.display);
                      return 'fault' in parsed ? parsed.fault : setClear(fitting.id, parsed.mm);
                    }}
                  />
                }
                reason={fitting.clear === undefined ? 'of its bowl; common practice' : 'of its bowl'}
              />
            ) : (
              <LedgerRow
                wide
                name="Sheets there"
                figure={
                  <BlocksChoice
                    label={`How sheets pass ${fitting.kind} ${fitting.id}`}
                    value={fitting.blocks ?? null}
                    onChoose={(blocks) =>
                      actions.run({ kind: 'setFitting', fitting: fitting.id, fields: { blocks } })
                    }
                  />
                }
              />
            )}
          </Fragment>
        ))}
      </Ledger>
    </Section>
  );
}
