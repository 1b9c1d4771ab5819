// The rules of the trade that this job's specification can switch off, each in words and with its source.
import { TRADE_RULE_SOURCES } from '../../core/verify/sources';
import { Section } from '../ui/Ledger';
import { useLive } from './session';

export function TradeRulesPanel() {
  const { job, actions } = useLive();
  const { rulesOff } = job.system;
  const set = (rule: (typeof TRADE_RULE_SOURCES)[number]['rule'], on: boolean): string | null =>
    actions.run(
      {
        kind: 'setSystem',
        fields: { rulesOff: on ? rulesOff.filter((off) => off !== rule) : [...rulesOff, rule] },
      },
      on ? 'Switch rule on' : 'Switch rule off',
    );
  return (
    <Section
      title="Rules of the trade"
      aside={rulesOff.length > 0 ? <span className="soft">{rulesOff.length} switched off</span> : null}
    >
      <p className="soft">
        Kept by every layout and checked again afterwards. Switch off only what the specification lets go.
      </p>
      <ul className="trade-rules">
        {TRADE_RULE_SOURCES.map(({ rule, sources }) => (
          <li key={rule}>
            <label>
              <input
                type="checkbox"
                checked={!rulesOff.includes(rule)}
                onChange={(event) => set(rule, event.target.checked)}
              />
              <span>
                {WORDS[rule]}
                <small className="soft">{sources.join('; ')}</small>
              </span>
            </label>
          </li>
        ))}
      </ul>
    </Section>
  );
}

const WORDS: Readonly<Record<(typeof TRADE_RULE_SOURCES)[number]['rule'], string>> = {
  'sheds-water': 'Laps shed water',
  'valley-clear': 'Valleys stay free of laps',
  'drain-clear': 'Drains stay free of laps, or get a target sheet',
  'edge-clear': 'Side laps leave a machine its room at edges',
  'corner-clear': 'End laps keep off the corners of openings',
  'least-width': 'No course narrower than the least',
  'across-flutes': 'Fastened courses run across the flutes',
  'cut-edge-under': 'Cut edges of reinforced sheets go under, or are sealed',
  'dropped-over': 'Sheets are not dropped over tall or live units',
};
