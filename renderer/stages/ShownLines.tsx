// Layers and line widths of the sheet, each with how many lines it holds. What is switched off is out of sight and
// catches neither the pointer nor a trace.
import { useState } from 'react';
import { FILLS } from '../../core/plan/hiding';
import type { Hiding } from '../../core/plan/hiding';
import type { JobPage } from '../../core/job/schema';
import { formatNumber } from '../../core/units/numbers';
import { Section } from '../ui/Ledger';
import { useStore } from '../ui/useStore';
import { useLive, useSession } from './session';

/** Rarer widths are told in one line: nobody goes through fifty. */
const MOST_WIDTHS = 8;

export function ShownLines({ page }: { readonly page: JobPage }) {
  const { actions } = useLive();
  const reading = useStore(useSession().reading);
  const [open, setOpen] = useState(false);
  const { layers, widths } = reading.groups;
  if (reading.page !== page.id || reading.state !== 'read') return null;
  if (layers.length < 2 && widths.length < 2) return null;
  const { hiding } = reading;
  const off = hiding.layers.length + hiding.widths.length;
  const turn = (of: keyof Hiding, key: number): void => {
    const now = hiding[of];
    const next = now.includes(key) ? now.filter((one) => one !== key) : [...now, key].sort((a, b) => a - b);
    actions.hide({ ...hiding, [of]: next });
  };
  return (
    <Section title="Lines of the sheet">
      <p className="row-of-buttons">
        <button type="button" className="quiet" aria-expanded={open} onClick={() => setOpen(!open)}>
          {open ? 'Close the list' : `${formatNumber(reading.segments)} lines: layers and widths`}
        </button>
        {off > 0 && (
          <button type="button" className="quiet" onClick={() => actions.hide({ layers: [], widths: [] })}>
            Show all again
          </button>
        )}
      </p>
      {off > 0 && (
        <p className="soft">
          {off === 1 ? 'One group is' : `${off} groups are`} hidden from sight, snapping and tracing.
          {reading.sorted ? '' : ' The rest is being sorted for tracing…'}
        </p>
      )}
      {open && layers.length > 1 && (
        <ul className="list shown-lines" aria-label="Layers">
          {layers.map(({ key, name, count }) => (
            <Row
              key={key}
              name={name === '' ? 'On no layer' : name}
              count={count}
              hidden={hiding.layers.includes(key)}
              onTurn={() => turn('layers', key)}
            />
          ))}
        </ul>
      )}
      {open && widths.length > 1 && (
        <ul className="list shown-lines" aria-label="Line widths">
          {widths.slice(0, MOST_WIDTHS).map(({ key, count }) => (
            <Row
              key={key}
              name={widthName(key)}
              count={count}
              hidden={hiding.widths.includes(key)}
              onTurn={() => turn('widths', key)}
            />
          ))}
          {widths.length > MOST_WIDTHS && (
            <li className="soft">and {widths.length - MOST_WIDTHS} rarer widths, always shown</li>
          )}
        </ul>
      )}
    </Section>
  );
}

function Row({
  name,
  count,
  hidden,
  onTurn,
}: {
  readonly name: string;
  readonly count: number;
  readonly hidden: boolean;
  readonly onTurn: () => void;
}) {
  return (
    <li>
      <button
        type="button"
        aria-pressed={!hidden}
        aria-label={`${name}: ${hidden ? 'show' : 'hide'}`}
        onClick={onTurn}
      >
        <span className={hidden ? 'struck' : undefined}>{name}</span>
        <span className="soft">{hidden ? 'hidden' : formatNumber(count)}</span>
      </button>
    </li>
  );
}

function widthName(key: number): string {
  if (key === FILLS) return 'Fills';
  return key === 0 ? 'Thinnest line' : `${(key / 100).toFixed(2)} mm`;
}
