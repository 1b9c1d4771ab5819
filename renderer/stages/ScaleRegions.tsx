// The parts of the page that have a scale of their own: each with its scale, a click from its place.
import type { JobPage, ScaleRegion } from '../../core/job/schema';
import { roofScale } from '../../core/job/pageScale';
import { formatScale, mmPerPoint, parseScale, ratioOf } from '../../core/units/scales';
import { DraftField } from '../ui/DraftField';
import { Section } from '../ui/Ledger';
import { useLive } from './session';

export function ScaleRegions({ page }: { readonly page: JobPage }) {
  const { actions } = useLive();
  const { regions = [] } = page;
  return (
    <Section title="Parts at another scale">
      {regions.length === 0 ? (
        <p className="soft">
          A detail or an inset that is drawn at another scale gets a region: what is traced in it is measured
          by the region’s own scale.
        </p>
      ) : (
        <ul className="list" aria-label="Regions with a scale of their own">
          {regions.map((region, k) => (
            <Region key={region.id} page={page} region={region} number={k + 1} />
          ))}
        </ul>
      )}
      <p className="row-of-buttons">
        <button type="button" onClick={() => actions.chooseTool('scaleRegion')}>
          {regions.length === 0 ? 'Draw a region' : 'Draw or move a region'}
        </button>
      </p>
    </Section>
  );
}

function Region({
  page,
  region,
  number,
}: {
  readonly page: JobPage;
  readonly region: ScaleRegion;
  readonly number: number;
}) {
  const { job, actions } = useLive();
  const { low, high, scale } = region;
  const roofs = Object.values(job.roofs).filter((roof) => {
    const found = roof.page === page.id && roofScale(job, roof);
    return found && 'mmPerPoint' in found && found.region?.id === region.id;
  });
  return (
    <li className="region-row">
      <button
        type="button"
        onClick={() => actions.jumpTo(page.id, [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2])}
      >
        <span>Region {number}</span>
        <span className="soft">
          {roofs.length === 0 ? 'no roof in it' : roofs.map(({ name }) => name).join(', ')}
        </span>
      </button>
      <DraftField
        label={`Scale of region ${number}`}
        shown={formatScale(ratioOf(scale.mmPerPoint), job.display)}
        onCommit={(text) => {
          const parsed = parseScale(text);
          if ('fault' in parsed) return parsed.fault;
          const { ratio } = parsed;
          return actions.run({
            kind: 'setRegion',
            page: page.id,
            region: {
              ...region,
              scale: { mmPerPoint: mmPerPoint(ratio), from: { by: 'ratio', ratio, text: text.trim() } },
            },
          });
        }}
      />
      <button
        type="button"
        className="quiet"
        aria-label={`Remove region ${number}`}
        onClick={() => {
          const refusal = actions.run({ kind: 'removeRegion', page: page.id, region: region.id });
          if (refusal === null && roofs.length > 0)
            actions.say(
              `${roofs.map(({ name }) => name).join(', ')}: now measured by the page’s own scale.`,
              true,
            );
        }}
      >
        Remove
      </button>
    </li>
  );
}
