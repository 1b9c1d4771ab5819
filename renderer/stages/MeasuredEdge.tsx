// An edge as it was measured on site: how much further out or in than drawn the roof reaches at each of its ends. What
// lies stays; what is not yet laid is cut to it.
import type { Job, JobEdge } from '../../core/job/schema';
import { formatLength, parseLength } from '../../core/units/lengths';
import type { Display } from '../../core/units/lengths';
import { DraftField } from '../ui/DraftField';
import { useLive } from './session';

export function MeasuredEdge({ edge }: { readonly edge: JobEdge }) {
  const { job, actions } = useLive();
  const { measured } = edge;
  const put = (next: JobEdge['measured'] | null): string | null =>
    actions.run(
      { kind: 'setEdges', edges: [edge.id], fields: { measured: next ?? null } },
      'Edge as measured',
    );
  const [start, end] = cornerNames(job, edge.id);
  const field = (at: 'from' | 'to', name: string) => (
    <DraftField
      label={name}
      labelled="visible"
      shown={measured ? signed(measured[at], job.display) : ''}
      placeholder="as drawn"
      onCommit={(text) => {
        if (text.trim() === '') return put(null);
        const read = readSigned(text, job.display);
        if ('fault' in read) return read.fault;
        // One measure alone is the edge standing off as a whole.
        return put(measured ? { ...measured, [at]: read.mm } : { from: read.mm, to: read.mm });
      }}
    />
  );
  return (
    <div className="many" role="group" aria-label="The picked edge as measured">
      <strong>As measured on site</strong>
      {field('from', `Out at ${start}`)}
      {field('to', `Out at ${end}`)}
      {measured && (
        <button type="button" className="quiet" onClick={() => put(null)}>
          As drawn
        </button>
      )}
      <p className="soft">
        How much further out than drawn the roof reaches, with a minus where it stops short. Sheets that lie
        by the log stay; the others are cut to it. Measure from behind the fall protection.
      </p>
    </div>
  );
}

/** “35 mm out”, “86 mm in at A3”, or null where the edge is as drawn. */
export function sayMeasured({ measured }: JobEdge, display: Display): string | null {
  if (!measured) return null;
  const { from, to } = measured;
  const one = (mm: number) => `${formatLength(Math.abs(mm), display)} ${mm < 0 ? 'in' : 'out'}`;
  return `measured ${from === to ? one(from) : `${one(from)} to ${one(to)}`}`;
}

/** Corners of an outline by the names that maps and lists call them by. */
function cornerNames(job: Job, edge: string): readonly [string, string] {
  for (const { letter, outline } of Object.values(job.roofs)) {
    const at = outline.indexOf(edge);
    if (at >= 0) return [`${letter}${at + 1}`, `${letter}${((at + 1) % outline.length) + 1}`];
  }
  return ['its start', 'its end'];
}

function signed(mm: number, display: Display): string {
  return mm > 0 ? `+${formatLength(mm, display)}` : formatLength(mm, display);
}

function readSigned(text: string, display: Display): { readonly mm: number } | { readonly fault: string } {
  const [, sign = '', rest = ''] = /^\s*([+\-\u2212\u2013]?)\s*(.*)$/.exec(text) ?? [];
  const read = parseLength(rest, display);
  return 'fault' in read || sign === '' || sign === '+' ? read : { mm: -read.mm };
}
