// What became of the sheets once the roof was measured: which labels changed and by how much, and which lie and stay.
import type { RoofEstimate } from '../../core/job/result';
import { formatLength } from '../../core/units/lengths';
import { Ledger, LedgerRow, ObjectName, Section } from '../ui/Ledger';
import { counted } from '../ui/plural';
import { useStore } from '../ui/useStore';
import { useLive, useSession } from './session';

export function RefitPanel({ roofs }: { readonly roofs: readonly RoofEstimate[] }) {
  const { job, actions } = useLive();
  const { selection } = useStore(useSession().document);
  const fitted = roofs.flatMap(({ id, refit }) => (refit ? [{ roof: id, ...refit }] : []));
  const changed = fitted.flatMap(({ roof, changed: list }) => list.map((one) => ({ ...one, roof })));
  const kept = fitted.reduce((sum, one) => sum + one.kept.length, 0);
  if (changed.length === 0 && kept === 0) return null;
  const length = (mm: number) => formatLength(mm, job.display);
  return (
    <Section
      title={`As measured, ${changed.length} ${changed.length === 1 ? 'label changed' : 'labels changed'}`}
    >
      <p className="soft">
        {kept > 0 &&
          `${kept} ${counted(kept, 'sheet')} ${kept === 1 ? 'lies' : 'lie'} by the log and ${kept === 1 ? 'stays' : 'stay'} in place. `}
        {changed.length > 0
          ? 'These are cut anew: print their labels again, and issue the layout before they are laid.'
          : 'Nothing needs cutting anew.'}
      </p>
      <Ledger label="Sheets cut anew" rows="named">
        {changed.map(({ roof, sheet, was, is }) => (
          <LedgerRow
            key={`${roof} ${sheet}`}
            name={
              is === null ? (
                <ObjectName id={sheet} />
              ) : (
                <button
                  type="button"
                  className={selection.some((p) => p.id === sheet) ? 'link on' : 'link'}
                  onClick={() => actions.pick([{ kind: 'sheet', id: sheet, roof }])}
                >
                  <ObjectName id={sheet} />
                </button>
              )
            }
            figure={is === null ? 'not laid' : length(is)}
            reason={was === null ? 'new' : `was ${length(was)}`}
          />
        ))}
      </Ledger>
    </Section>
  );
}
