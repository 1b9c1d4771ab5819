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
  /** Where what is asked is longer than one word the list stands over the whole row. */
  const choice = <K extends 'roll' | 'attachment' | 'backing'>(
    key: K,
    name: string,
    label: string,
    options: readonly { readonly value: JobSystem[K]; readonly text: string }[],
  ) => (
    <LedgerRow
      wide
      name={name}
      figure={
        <Choice
          label={label}
          value={system[key]}
          options={options}
          onChoose={(value) => set({ [key]: value })}
        />
      }
      reason={mark(key)}
    />
  );
  const either = <K extends 'material' | 'joints'>(
    key: K,
    name: string,
    options: readonly { readonly value: JobSystem[K]; readonly text: string }[],
  ) => (
    <LedgerRow
      name={name}
      figure={
        <Switch
          label={name}
          value={system[key]}
          options={options}
          onChoose={(value) => set({ [key]: value })}
        />
      }
      reason={mark(key)}
    />
  );
  return (
    <Section title="Membrane system">
      <Ledger label="Membrane system">
        {choice(
          'roll',
          'Roll',
          'Roll',
          rates.rolls.map((roll) => ({ value: roll.id, text: roll.name })),
        )}
        {either('material', 'Material', [
          { value: 'TPO', text: 'TPO' },
          { value: 'PVC', text: 'PVC' },
        ])}
        {choice('attachment', 'Held', 'Attachment', [
          { value: 'fastened in the lap', text: 'Fastened in the lap' },
          { value: 'adhered', text: 'Adhered' },
        ])}
        {length('sideLap', 'Side lap')}
        {length('endLap', 'End lap')}
        {length('endLapStagger', 'Stagger')}
        {length('minPiece', 'Shortest piece')}
        {length('minWidth', 'Narrowest course')}
        {length('cornerClear', 'End laps off corners')}
        {length('thickness', 'Thickness')}
        {length('cutAllowance', 'Cut allowance')}
        {system.attachment === 'fastened in the lap' && length('fastenerSpacing', 'Fastener spacing')}
        {choice('backing', 'Backing', 'Backing', [
          { value: 'bare', text: 'Bare: ends lap' },
          { value: 'fleece', text: 'Fleece: ends butt under a strip' },
        ])}
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
        {either('joints', 'End joints', [
          { value: 'allowed', text: 'Allowed' },
          { value: 'forbidden', text: 'None' },
        ])}
      </Ledger>
      <p className="soft">
        Laps, fasteners and their spacing follow the membrane maker’s instructions and the wind design of a
        licensed engineer; what is assumed here is common practice only.
      </p>
    </Section>
  );
}
