// What the sheet says of its own scale, with what proves it: each piece of evidence a click from its spot. Offered,
// never taken silently.
import { useState } from 'react';
import { sourceOf } from '../../core/plan/scale';
import type { RegionCandidate, ScaleCandidate, ScaleEvidence, ScaleReading } from '../../core/plan/scale';
import { formatLength } from '../../core/units/lengths';
import { formatNumber } from '../../core/units/numbers';
import { formatScale, mmPerPoint, ratioOf } from '../../core/units/scales';
import { overlap } from '../../core/plan/pageParts';
import type { JobPage } from '../../core/job/schema';
import { nextRegionId } from '../document/ids';
import { useStore } from '../ui/useStore';
import { scaleCommand } from './scaleCommand';
import { useLive, useSession } from './session';

export function ScaleReadout({ page }: { readonly page: JobPage }) {
  const { job, actions } = useLive();
  const reading = useStore(useSession().reading);
  if (reading.page !== page.id) return null;
  if (reading.state === 'reading')
    return (
      <p className="soft" role="status">
        {reading.operators === 0
          ? 'Opening the sheet…'
          : `Reading the sheet: ${formatNumber(reading.operators)} strokes and letters so far…`}
      </p>
    );
  if (reading.state === 'locked')
    return (
      <p className="soft">
        The drawing is locked. Choose the sheet again to give its password; roofs traced on it are kept.
      </p>
    );
  if (reading.state === 'unreadable')
    return <p className="soft">The lines of this sheet cannot be read, so there is nothing to snap to.</p>;
  if (reading.raster)
    return (
      <p className="soft">
        This sheet is a picture: there are no lines to snap to or to trace. Level it by a long line, measure
        its scale by lengths you know, and draw by hand; everything after that works as on any sheet.
      </p>
    );
  const [best] = reading.scale.candidates;
  if (!best) {
    const why = reading.scale.warnings.find(({ kind }) => kind === 'nothing-to-read');
    // Once a person has set it there is nothing left to ask for.
    return why && !page.scale ? <p className="soft">{why.message}.</p> : null;
  }
  const ratio = page.scale ? ratioOf(page.scale.mmPerPoint) : null;
  const says = formatScale(best.ratio, job.display);
  const agrees = ratio !== null && Math.abs(best.ratio / ratio - 1) < 0.002;
  return (
    <>
      {agrees ? (
        <p className="soft">
          The sheet itself says {says}: {sourceOf(best)}.
        </p>
      ) : (
        <div className={ratio === null ? 'offer' : 'offer wrong'}>
          <p>
            The sheet says <strong>{says}</strong> ({sourceOf(best)})
            {ratio === null ? '.' : `, but ${formatScale(ratio, job.display)} is set.`}
          </p>
          <button type="button" className="primary" onClick={() => actions.run(scaleCommand(page.id, best))}>
            Use {says}
          </button>
        </div>
      )}
      <Proof page={page} scale={reading.scale} best={best} />
      {page.scale && <RegionOffers page={page} regions={reading.scale.regions} />}
    </>
  );
}

/** Parts of the sheet that show another scale and have no region yet. */
function RegionOffers({
  page,
  regions,
}: {
  readonly page: JobPage;
  readonly regions: readonly RegionCandidate[];
}) {
  const { job, actions } = useLive();
  return regions
    .filter(({ low, high }) => !page.regions?.some((known) => overlap(known, { low, high })))
    .map(({ ratio, from, evidence, low, high }) => {
      const says = formatScale(ratio, job.display);
      const by =
        from === 'note'
          ? `“${evidence[0]?.text.trim() ?? ''}”`
          : evidence.length === 1
            ? 'one dimension'
            : `${evidence.length} dimensions`;
      return (
        <div className="offer" key={`${ratio} ${low.join()}`}>
          <p>
            A part of the sheet is drawn at <strong>{says}</strong> ({by}).
          </p>
          <button
            type="button"
            className="primary"
            onClick={() => {
              const scale = {
                mmPerPoint: mmPerPoint(ratio),
                from: { by: 'ratio', ratio, text: `${says}, by ${by}` },
              } as const;
              actions.run({
                kind: 'setRegion',
                page: page.id,
                region: { id: nextRegionId(job), low, high, scale },
              });
            }}
          >
            Use {says} there
          </button>{' '}
          <button
            type="button"
            className="quiet"
            onClick={() => actions.jumpTo(page.id, [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2])}
          >
            Show
          </button>
        </div>
      );
    });
}

function Proof({
  page,
  scale,
  best,
}: {
  readonly page: JobPage;
  readonly scale: ScaleReading;
  readonly best: ScaleCandidate;
}) {
  const { actions } = useLive();
  const [open, setOpen] = useState(false);
  const others = scale.candidates.filter((candidate) => candidate !== best);
  const count = best.evidence.length + scale.against.length + others.length;
  // Parts at another scale are offered below, each with its own button.
  const wrong = scale.warnings.filter(
    ({ kind }) => kind !== 'not-to-scale' && !(kind === 'several-scales' && scale.regions.length > 0),
  );
  return (
    <>
      {wrong.map(({ message, at }, k) => (
        <p key={k} className="wrong-text">
          {message}.{' '}
          {at && (
            <button type="button" className="quiet" onClick={() => actions.jumpTo(page.id, at)}>
              Show
            </button>
          )}
        </p>
      ))}
      <p>
        <button type="button" className="quiet" aria-expanded={open} onClick={() => setOpen(!open)}>
          {open ? 'Close the evidence' : `Evidence (${count})`}
        </button>
      </p>
      {open && (
        <ul className="list" aria-label="Evidence for the scale">
          {best.evidence.map((one, k) => (
            <EvidenceRow key={`for ${k}`} page={page} one={one} ratio={best.ratio} from={best.from} />
          ))}
          {scale.against.map((one, k) => (
            <EvidenceRow key={`against ${k}`} page={page} one={one} ratio={best.ratio} from="dimensions" />
          ))}
          {others.flatMap((candidate) =>
            candidate.evidence
              .slice(0, MOST_SHOWN)
              .map((one, k) => (
                <EvidenceRow
                  key={`${candidate.from} ${candidate.ratio} ${k}`}
                  page={page}
                  one={one}
                  ratio={candidate.ratio}
                  from={candidate.from}
                />
              )),
          )}
        </ul>
      )}
    </>
  );
}

const MOST_SHOWN = 3;

function EvidenceRow({
  page,
  one,
  ratio,
  from,
}: {
  readonly page: JobPage;
  readonly one: ScaleEvidence;
  readonly ratio: number;
  readonly from: ScaleCandidate['from'];
}) {
  const { job, actions } = useLive();
  const measured = one.measured * mmPerPoint(ratio);
  const off = (100 * (measured - one.stated)) / one.stated;
  const place = one.line
    ? ([(one.line[0][0] + one.line[1][0]) / 2, (one.line[0][1] + one.line[1][1]) / 2] as const)
    : one.at;
  return (
    <li>
      <button type="button" onClick={() => actions.jumpTo(page.id, place)}>
        <span>{one.text.trim()}</span>
        <span className={Math.abs(off) > 1 ? 'wrong-text' : 'soft'}>
          {from === 'dimensions'
            ? `measures ${formatLength(measured, job.display)}${Math.abs(off) > 1 ? `, ${off.toFixed(1)} % off` : ''}`
            : `${from === 'bar' ? 'scale bar' : 'note'}, ${formatScale(ratio, job.display)}`}
        </span>
      </button>
    </li>
  );
}
