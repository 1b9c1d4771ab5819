// The edges, one row each: kind, upstand, allowance. Several picked edges are changed at once.
import { formatLength } from '../../core/units/lengths';
import { mmPerPointOf } from '../../core/job/pageScale';
import type { Job, JobEdge } from '../../core/job/schema';
import type { EdgeKind } from '../../core/roof/types';
import { pickedIds } from '../document/picked';
import { distance, ringsOnPage } from '../document/rings';
import { Choice } from '../ui/Choice';
import { LengthField } from '../ui/LengthField';
import { Section } from '../ui/Ledger';
import { useStore } from '../ui/useStore';
import { EdgeRules, sayEdgeRules } from './EdgeRules';
import { MeasuredEdge, sayMeasured } from './MeasuredEdge';
import { useLive, useSession } from './session';

export const EDGE_WORDS: readonly { value: EdgeKind; text: string }[] = [
  { value: 'parapet', text: 'Parapet' },
  { value: 'eave', text: 'Eave' },
  { value: 'gutter', text: 'Gutter' },
  { value: 'wall', text: 'Wall abutment' },
  { value: 'curb', text: 'Curb' },
  { value: 'expansion', text: 'Expansion joint' },
  { value: 'tie-in', text: 'Tie-in' },
  { value: 'phase', text: 'Phase line' },
];

interface Row {
  readonly edge: JobEdge;
  readonly length: number;
  readonly roof: string;
  readonly ring: string;
  readonly owner: 'roof' | 'opening';
}

export function EdgePanel() {
  const { job, actions } = useLive();
  const { selection } = useStore(useSession().document);
  const picked = pickedIds(selection, 'edge').filter((id) => id in job.edges);
  const rows = rowsOf(job);
  const chosen = rows.filter((row) => picked.includes(row.edge.id));
  return (
    <Section
      title="Edges"
      aside={
        picked.length > 0 ? (
          <button type="button" className="quiet" onClick={() => actions.pick([])}>
            {picked.length} picked, let go
          </button>
        ) : (
          <button
            type="button"
            className="quiet"
            onClick={() =>
              actions.pick(
                rows
                  .filter((row) => row.owner === 'roof')
                  .map((row) => ({ kind: 'edge', id: row.edge.id, roof: row.roof })),
              )
            }
          >
            Pick all round
          </button>
        )
      }
    >
      <p className="soft">
        Pick edges here or on the plan; Shift-click for several. A picked set is changed as one, and takes
        perimeter sheets and the distance that side laps keep.
      </p>
      {chosen.length > 1 && <ManyEdges rows={chosen} />}
      {chosen.length > 0 && <EdgeRules edges={chosen.map((row) => row.edge)} />}
      {chosen.length === 1 && chosen[0] && <MeasuredEdge edge={chosen[0].edge} />}
      <table className="edges">
        <thead>
          <tr>
            <th scope="col">Edge</th>
            <th scope="col">Kind</th>
            <th scope="col">Upstand</th>
            <th scope="col">Allowance</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row, k) => (
            <EdgeRow
              key={row.edge.id}
              row={row}
              heading={row.ring !== rows[k - 1]?.ring ? row.ring : null}
              picked={picked.includes(row.edge.id)}
            />
          ))}
        </tbody>
      </table>
    </Section>
  );
}

function EdgeRow({
  row,
  heading,
  picked,
}: {
  readonly row: Row;
  readonly heading: string | null;
  readonly picked: boolean;
}) {
  const { job, actions } = useLive();
  const { selection } = useStore(useSession().document);
  const { edge } = row;
  const set = (fields: Partial<Pick<JobEdge, 'kind' | 'upstand' | 'allowance'>>): string | null =>
    actions.run({ kind: 'setEdges', edges: [edge.id], fields });
  const one = { kind: 'edge', id: edge.id, roof: row.roof } as const;
  const said = [sayEdgeRules(edge, job.display), sayMeasured(edge, job.display)].filter(Boolean).join('; ');
  return (
    <>
      {heading !== null && (
        <tr className="ring-name">
          <th colSpan={4} scope="colgroup">
            {heading}
          </th>
        </tr>
      )}
      <tr className={picked ? 'picked' : undefined}>
        <th scope="row">
          <button
            type="button"
            className="link"
            aria-pressed={picked}
            onClick={(event) => {
              if (!event.shiftKey) return actions.pick([one]);
              actions.pick(picked ? selection.filter((p) => p.id !== edge.id) : [...selection, one]);
            }}
          >
            <span className="figure">{formatLength(row.length, job.display)}</span>
          </button>
        </th>
        <td>
          <Choice
            label={`Kind of edge ${edge.id}`}
            value={edge.kind}
            options={EDGE_WORDS}
            onChoose={(kind) => set({ kind })}
          />
        </td>
        <td>
          <LengthField
            label={`Upstand of edge ${edge.id}`}
            mm={edge.upstand}
            display={job.display}
            onLength={(upstand) => set({ upstand })}
          />
        </td>
        <td>
          <LengthField
            label={`Allowance of edge ${edge.id}`}
            mm={edge.allowance}
            display={job.display}
            onLength={(allowance) => set({ allowance })}
          />
        </td>
      </tr>
      {said !== '' && (
        <tr className={picked ? 'picked said' : 'said'}>
          <td colSpan={4}>{said}</td>
        </tr>
      )}
    </>
  );
}

function ManyEdges({ rows }: { readonly rows: readonly Row[] }) {
  const { job, actions } = useLive();
  const set = (fields: Partial<Pick<JobEdge, 'kind' | 'upstand' | 'allowance'>>): string | null =>
    actions.run({ kind: 'setEdges', edges: rows.map((row) => row.edge.id), fields });
  return (
    <div className="many">
      <strong>All {rows.length} picked</strong>
      <Choice
        label="Kind of the picked edges"
        value={common(rows, (edge) => edge.kind)}
        options={EDGE_WORDS}
        onChoose={(kind) => set({ kind })}
      />
      <LengthField
        label="Upstand of the picked edges"
        mm={common(rows, (edge) => edge.upstand)}
        placeholder="various"
        display={job.display}
        onLength={(upstand) => set({ upstand })}
      />
      <LengthField
        label="Allowance of the picked edges"
        mm={common(rows, (edge) => edge.allowance)}
        placeholder="various"
        display={job.display}
        onLength={(allowance) => set({ allowance })}
      />
    </div>
  );
}

function common<T>(rows: readonly Row[], read: (edge: JobEdge) => T): T | null {
  const [first, ...rest] = rows.map((row) => read(row.edge));
  return first !== undefined && rest.every((value) => value === first) ? first : null;
}

function rowsOf(job: Job): readonly Row[] {
  return Object.values(job.pages).flatMap((page) =>
    ringsOnPage(job, page.id).flatMap((ring) => {
      const mmPerPoint = mmPerPointOf(job, job.roofs[ring.roof]) ?? 1;
      const ringName = ring.owner === 'roof' ? job.roofs[ring.id]?.name : job.openings[ring.id]?.name;
      return ring.edges.map((edge, k) => ({
        edge,
        length: distance(edge.at, ring.edges[(k + 1) % ring.edges.length]?.at ?? edge.at) * mmPerPoint,
        roof: ring.roof,
        ring: ringName ?? ring.id,
        owner: ring.owner,
      }));
    }),
  );
}
