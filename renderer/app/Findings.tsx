// Findings of the estimate and faults of roofs, worst first, with the way to each spot.
import type { Finding, Severity } from '../../core/verify/types';
import { FindingStrip } from '../findings/FindingStrip';
import type { StripEntry } from '../findings/FindingStrip';
import { useLive, useSession } from '../stages/session';
import type { Actions } from '../stages/session';
import type { Estimate } from '../../core/job/result';
import { useStore } from '../ui/useStore';

const WORST_FIRST: readonly Severity[] = ['error', 'warning', 'advice'];

export function Findings() {
  const { estimate, lagging, actions } = useLive();
  const { view } = useSession();
  const { failure } = useStore(useSession().results);
  const laid = estimate?.roofs.some((roof) => roof.layout !== null) ?? false;
  const entries = estimate
    ? entriesOf(estimate, actions, (ids) => view.update((v) => ({ ...v, lit: ids })))
    : [];
  const state =
    failure !== null ? 'failed' : !laid && entries.length === 0 ? 'none' : lagging ? 'lagging' : 'known';
  return <FindingStrip entries={entries} state={state} />;
}

function entriesOf(
  estimate: Estimate,
  actions: Actions,
  light: (ids: readonly string[]) => void,
): readonly StripEntry[] {
  const sorted = [...estimate.findings].sort(
    (a, b) => WORST_FIRST.indexOf(a.severity) - WORST_FIRST.indexOf(b.severity),
  );
  const go = (finding: Finding): (() => void) | null => {
    const roof = estimate.roofs.find((one) => one.id === finding.roof);
    const { at } = finding;
    if (!at || !roof) return finding.ids.length > 0 ? () => light(finding.ids) : null;
    return () => {
      actions.jumpTo(roof.page, [at[0] / roof.mmPerPoint, at[1] / roof.mmPerPoint]);
      light(finding.ids);
    };
  };
  return sorted.map((finding, k) => ({
    finding,
    key: `${k} ${finding.rule} ${finding.ids.join(' ')}`,
    onGo: go(finding),
  }));
}
