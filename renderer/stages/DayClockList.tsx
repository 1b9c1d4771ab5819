// The clock of a day: strips, sheets, pauses and the closing in order, each with its time.
import { timeOf } from '../../core/units/times';
import { EARLIEST, endOf } from '../../core/welding/clock';
import { KINDS } from '../../core/welding/kinds';
import type { WeldKind, WorkDay } from '../../core/welding/types';
import { ObjectName } from '../ui/Ledger';
import { useLive } from './session';

export function DayClockList({ day }: { readonly day: WorkDay }) {
  const { job, estimate, actions } = useLive();
  const own = new Set(day.runs);
  const kinds = new Map(
    estimate?.weldPlan.runs.flatMap(({ id, kind }) => (own.has(id) ? [[id, kind] as const] : [])),
  );
  const machine = (k: number | null) =>
    k === null ? 'Hand gun' : (job.rates.welding.machines[k]?.name ?? `Machine ${k + 1}`);
  const lines = [
    ...day.strips.map((strip) => ({
      at: strip.at,
      until: null,
      kind: 'strip' as const,
      said: `Test strip: ${machine(strip.machine)}, ${strip.reason}`,
      sheet: null,
      roof: null,
    })),
    ...day.clock.pauses
      .filter(({ from }) => from < endOf(day))
      .map(({ from, to, why }) => ({
        at: from,
        until: to,
        kind: 'pause' as const,
        said: why === 'break' ? 'Break' : why,
        sheet: null,
        roof: null,
      })),
    ...day.steps
      .filter(({ what }) => what === 'sheet' || what === 'closing for the night')
      .map(({ what, from, to, sheet, roof }) => ({
        at: from,
        until: to,
        kind: 'work' as const,
        said: what === 'sheet' ? 'laid, fastened, welded' : 'Closing for the night',
        sheet,
        roof,
      })),
    ...detailsTogether(day, (id) => kinds.get(id)).map(({ from, to, said }) => ({
      at: from,
      until: to,
      kind: 'work' as const,
      said,
      sheet: null,
      roof: null,
    })),
  ].sort((a, b) => a.at - b.at);
  return (
    <ol className="day-clock" aria-label={`Clock of day ${day.number}`}>
      {lines.map(({ at, until, kind, said, sheet, roof }, k) => (
        <li key={k} className={kind}>
          <span className="figure">
            {timeOf(at)}
            {until !== null && ` to ${timeOf(until)}`}
          </span>
          <span>
            {sheet !== null && roof !== null && (
              <button
                type="button"
                className="link"
                onClick={() => actions.pick([{ kind: 'sheet', id: sheet, roof }])}
              >
                <ObjectName id={sheet} />
              </button>
            )}{' '}
            {said}
          </span>
        </li>
      ))}
      <li className="soft">{EARLIEST}</li>
    </ol>
  );
}

/** Details that are welded one after another, as one line: “8 details: flashing, corner”. */
function detailsTogether(
  { steps }: WorkDay,
  kindOf: (run: string) => WeldKind | undefined,
): readonly { readonly from: number; readonly to: number; readonly said: string }[] {
  const groups: { from: number; to: number; count: number; kinds: Set<string> }[] = [];
  let open = false;
  for (const { what, from, to, run } of steps) {
    if (what === 'detail') {
      const last = open ? groups.at(-1) : undefined;
      const group = last ?? { from, to, count: 0, kinds: new Set<string>() };
      if (!last) groups.push(group);
      const kind = kindOf(run ?? '');
      group.to = to;
      group.count++;
      if (kind) group.kinds.add(KINDS[kind]);
    }
    // New strips are made beside the details and part them in nothing.
    if (what !== 'strips again') open = what === 'detail';
  }
  return groups.map(({ from, to, count, kinds }) => ({
    from,
    to,
    said: `${count} ${count === 1 ? 'detail' : 'details'}: ${[...kinds].join(', ')}`,
  }));
}
