// What picked edges ask of the sheets: how far side laps keep off, and rows of narrower sheets along them.
import type { JobEdge } from '../../core/job/schema';
import { formatLength } from '../../core/units/lengths';
import type { Display } from '../../core/units/lengths';
import { LengthField } from '../ui/LengthField';
import { NumberField } from '../ui/NumberField';
import { counted } from '../ui/plural';
import { useLive } from './session';

export function EdgeRules({ edges }: { readonly edges: readonly JobEdge[] }) {
  const { job, actions } = useLive();
  const { display, rates, system } = job;
  const [one] = edges;
  if (!one) return null;
  const ids = edges.map(({ id }) => id);
  const clears = new Set(edges.map(({ clear = 0 }) => clear));
  const rows = new Set(edges.map(({ perimeter }) => `${perimeter?.sheets ?? 0} × ${perimeter?.width ?? 0}`));
  const roll = rates.rolls.find(({ id }) => id === system.roll);
  const { sheets, width } = one.perimeter ?? { sheets: 0, width: (roll?.width ?? 2000) / 2 };
  const set = (fields: { clear?: number | null; perimeter?: NonNullable<JobEdge['perimeter']> | null }) =>
    actions.run(
      { kind: 'setEdges', edges: ids, fields },
      'perimeter' in fields ? 'Perimeter sheets' : 'Clear distance of edges',
    );
  return (
    <div className="many" role="group" aria-label="Sheets along the picked edges">
      <strong>
        {edges.length === 1
          ? 'Sheets along this edge'
          : `Sheets along ${edges.length} ${counted(edges.length, 'edge')}`}
      </strong>
      <LengthField
        label="No side lap within"
        labelled="visible"
        mm={clears.size === 1 ? (one.clear ?? 0) : null}
        placeholder="various"
        display={display}
        onLength={(clear) => set({ clear: clear === 0 ? null : clear })}
      />
      <NumberField
        label="Perimeter rows"
        labelled="visible"
        value={sheets}
        unit={rows.size === 1 ? '' : 'various'}
        whole
        most={50}
        onNumber={(count) => set({ perimeter: count === 0 ? null : { sheets: count, width } })}
      />
      <LengthField
        label="Width of each"
        labelled="visible"
        mm={width}
        display={display}
        disabled={sheets === 0}
        onLength={(wide) => set({ perimeter: { sheets, width: wide } })}
      />
      <p className="soft">
        How many rows, and how wide, comes from the wind design. Near roof edges work behind the fall
        protection that local rules ask for.
      </p>
    </div>
  );
}

/** "2 rows of 1.5 m, no side lap within 300 mm", or null where nothing is asked. */
export function sayEdgeRules({ clear = 0, perimeter }: JobEdge, display: Display): string | null {
  const said = [
    perimeter
      ? `${perimeter.sheets} ${counted(perimeter.sheets, 'row')} of ${formatLength(perimeter.width, display)}`
      : '',
    clear > 0 ? `no side lap within ${formatLength(clear, display)}` : '',
  ].filter(Boolean);
  return said.length === 0 ? null : said.join(', ');
}
