// The membrane system: which roll, how it is held, its laps.
import type { JobSystem } from '../../core/job/schema';
import { Choice, Switch } from '../ui/Choice';
import { LengthField } from '../ui/LengthField';
import { AssumedMark, Ledger, LedgerRow, Section } from '../ui/Ledger';
import { isAssumed, useLive } from './session';

export function SystemPanel() {
  const { job, actions } = useLive();
  const { system, rates, display } = job;
  const set = (fields: Partial<JobSystem>): string | null => actions.run({ kind: 'setSystem', fields });
  const mark = (key: keyof JobSystem) =>
    isAssumed(job, `system.${key}`) ? (
      <AssumedMark onConfirm={() => set({ [key]: system[key] })} />
    ) : (
      'set for this job'
    );
  const length = (
    key:
      | 'sideLap'
      | 'endLap'
      | 'endLapStagger'
      | 'minPiece'
      | 'cutAllowance'
      | 'fastenerSpacing'
      | 'thickness'
      | 'minWidth'
      | 'cornerClear'
      | 'stripWidth',
    name: string,
  ) => (
    <LedgerRow
      name={name}
      figure={
        <LengthField label={name} mm={system[key]} display={display} onLength={(mm) => set({ [key]: mm })} />
      }
      reason={mark(key)}
    />
  );
  return (
    <Section title="Membrane system">
      <Ledger label="Membrane system">
        <LedgerRow
          wide
          name="Roll"
          figure={
            <Choice
              label="Roll"
              value={system.roll}
              options={rates.rolls.map((roll) => ({ value: roll.id, text: roll.name }))}
              onChoose={(roll) => set({ roll })}
            />
          }
          reason={mark('roll')}
        />
        <LedgerRow
          name="Material"
          figure={
            <Switch
              label="Material"
              value={system.material}
              options={[
                { value: 'TPO', text: 'TPO' },
                { value: 'PVC', text: 'PVC' },
              ]}
              onChoose={(material) => set({ material })}
            />
          }
          reason={mark('material')}
        />
        <LedgerRow
          wide
          name="Held"
          figure={
            <Choice
              label="Attachment"
              value={system.attachment}
              options={[
                { value: 'fastened in the lap', text: 'Fastened in the lap' },
                { value: 'adhered', text: 'Adhered' },
              ]}
              onChoose={(attachment) => set({ attachment })}
            />
          }
          reason={mark('attachment')}
        />
        {length('sideLap', 'Side lap')}
        {length('endLap', 'End lap')}
        {length('endLapStagger', 'Stagger')}
        {length('minPiece', 'Shortest piece')}
        {length('minWidth', 'Narrowest course')}
        {length('cornerClear', 'End laps off corners')}
        {length('thickness', 'Thickness')}
        {length('cutAllowance', 'Cut allowance')}
        {system.attachment === 'fastened in the lap' && length('fastenerSpacing', 'Fastener spacing')}
        <LedgerRow
          wide
          name="Backing"
          figure={
            <Choice
              label="Backing"
              value={system.backing}
              options={[
                { value: 'bare', text: 'Bare: ends lap' },
                { value: 'fleece', text: 'Fleece: ends butt under a strip' },
              ]}
              onChoose={(backing) => set({ backing })}
            />
          }
          reason={mark('backing')}
        />
        {system.backing === 'fleece' && length('stripWidth', 'Strip over ends')}
        <LedgerRow
          wide
          name="Cut edges"
          figure={
            <Choice
              label="Cut edges"
              value={system.reinforced ? 'reinforced' : 'plain'}
              options={[
                { value: 'reinforced', text: 'Reinforced: seal what shows' },
                { value: 'plain', text: 'Not reinforced' },
              ]}
              onChoose={(kind) => set({ reinforced: kind === 'reinforced' })}
            />
          }
          reason={mark('reinforced')}
        />
        <LedgerRow
          name="End joints"
          figure={
            <Switch
              label="End joints"
              value={system.joints}
              options={[
                { value: 'allowed', text: 'Allowed' },
                { value: 'forbidden', text: 'None' },
              ]}
              onChoose={(joints) => set({ joints })}
            />
          }
          reason={mark('joints')}
        />
      </Ledger>
      <p className="soft">
        Laps, fasteners and their spacing follow the membrane maker’s instructions and the wind design of a
        licensed engineer; what is assumed here is common practice only.
      </p>
    </Section>
  );
}
