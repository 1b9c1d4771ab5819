// The search for the cheapest layout: what it costs in every direction as a small plot, and the best few to try.
import type { JobRoof } from '../../core/job/schema';
import type { Priced, SearchReport } from '../../core/search/types';
import { formatAngle } from '../../core/units/angles';
import { formatQuantity } from '../../core/units/figures';
import { formatNumber } from '../../core/units/numbers';
import { layingOf } from '../../core/job/searchRoof';
import type { SearchState } from '../document/searches';
import { Ledger, LedgerRow, Section } from '../ui/Ledger';
import { useStore } from '../ui/useStore';
import { useLive, useSession } from './session';

export function SearchPanel() {
  const { job, actions } = useLive();
  const { searches } = useSession();
  const search = useStore(searches.state);
  const roofs = Object.values(job.roofs);
  if (roofs.length === 0) return null;
  return (
    <Section title="Cheapest layout">
      <p className="soft">
        Looks through directions, first courses and last courses for the least money under this job's own
        rates: rolls, welds, end laps and waste.
      </p>
      {roofs.map((roof) => {
        const own = search?.roof === roof.id ? search : null;
        const take = (found: Priced) =>
          actions.run(
            { kind: 'setRoof', roof: roof.id, fields: { laying: layingOf(found, roof.laying) } },
            'Lay as found',
          );
        return (
          <div key={roof.id} className="search">
            <p className="search-head">
              {own?.running ? (
                <button type="button" onClick={() => searches.stop()}>
                  Stop, keep the best so far
                </button>
              ) : (
                <button type="button" onClick={() => searches.start(job, roof.id)}>
                  {roofs.length > 1 ? `Search ${roof.name}` : 'Search'}
                </button>
              )}
              {own && <span className="soft">{progressOf(own)}</span>}
            </p>
            {own?.failure && (
              <p className="fault" role="alert">
                {own.failure}
              </p>
            )}
            {own && <Found search={own} roof={roof} onTake={take} />}
          </div>
        );
      })}
    </Section>
  );
}

function progressOf({ running, scored, priced, report }: SearchState): string {
  const looked = `${formatNumber(scored)} ways looked at, ${formatNumber(priced)} cut in full`;
  if (running) return `${looked} …`;
  if (!report) return `${looked}; stopped`;
  return report.settled ? `${looked}; no other of them is cheaper` : `${looked}; ended by counted work`;
}

interface FoundProps {
  readonly search: SearchState;
  readonly roof: JobRoof;
  readonly onTake: (found: Priced) => void;
}

function Found({ search, roof, onTake }: FoundProps) {
  const { job } = useLive();
  const found = search.report?.best ?? (search.best ? [search.best] : []);
  const least = found[0]?.cost ?? 0;
  return (
    <>
      {search.report && <DirectionPlot report={search.report} onTake={onTake} />}
      <Ledger label={`Layouts found for ${roof.name}`}>
        {found.map((one, k) => (
          <LedgerRow
            key={k}
            name={
              <button type="button" className="quiet" onClick={() => onTake(one)}>
                {isTaken(roof, one) ? 'Laid so' : 'Lay so'}: {formatAngle(one.rules.direction)}
              </button>
            }
            figure={
              k === 0
                ? formatQuantity(one.rolls, 'rolls', job.display)
                : `+ ${formatNumber(one.cost - least, 2)}`
            }
            reason={reasonOf(one)}
          />
        ))}
      </Ledger>
      {found.length > 0 && (
        <p className="soft">
          Compared by membrane, welds, end laps and disposal, in {job.rates.currency.code}; the bid itself is
          priced line by line.
        </p>
      )}
    </>
  );
}

function reasonOf({ rolls, joints, closing, lowerBound }: Priced): string {
  const last =
    closing === null
      ? ''
      : closing.kind === 'narrow'
        ? ', last course narrower'
        : `, last course slit in ${closing.lanes}`;
  return `${rolls} rolls (least ${lowerBound}), ${joints} end ${joints === 1 ? 'lap' : 'laps'}${last}`;
}

function isTaken({ laying }: JobRoof, { rules }: Priced): boolean {
  return laying.direction === rules.direction && laying.firstCourse === rules.firstCourse;
}

const PLOT = { width: 300, height: 72, bar: 3 } as const;

/** Cost against direction, 0° to 180°; the bars begin at the least cost less a tenth of the spread. Pale bars were
 * ruled out by their bound and never cut. */
function DirectionPlot({
  report,
  onTake,
}: {
  readonly report: SearchReport;
  readonly onTake: (found: Priced) => void;
}) {
  const costs = report.byDirection.map(({ cost }) => cost);
  const [low, high] = [Math.min(...costs), Math.max(...costs)];
  const base = low - (high - low) / 8;
  const heightOf = (cost: number) => Math.max(2, ((cost - base) / Math.max(1e-9, high - base)) * PLOT.height);
  return (
    <figure className="direction-plot">
      <svg viewBox={`0 0 ${PLOT.width} ${PLOT.height + 16}`} role="img" aria-label="Cost by direction">
        {report.byDirection.map(({ direction, cost, exact }) => {
          const height = heightOf(cost);
          const found = report.best.find((one) => one.rules.direction === direction);
          return (
            <rect
              key={direction}
              x={(direction / 180) * (PLOT.width - PLOT.bar)}
              y={PLOT.height - height}
              width={PLOT.bar}
              height={height}
              className={cost === low ? 'least' : exact ? 'cut' : 'ruled-out'}
              onClick={found && (() => onTake(found))}
            />
          );
        })}
        <line x1="0" x2={PLOT.width} y1={PLOT.height} y2={PLOT.height} />
        {[0, 90, 180].map((angle) => (
          <text
            key={angle}
            x={(angle / 180) * PLOT.width}
            y={PLOT.height + 13}
            textAnchor={angle === 0 ? 'start' : angle === 90 ? 'middle' : 'end'}
          >
            {angle}°
          </text>
        ))}
      </svg>
      <figcaption className="soft">Cost by direction; pale where its bound already ruled it out.</figcaption>
    </figure>
  );
}
