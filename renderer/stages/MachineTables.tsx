// The tables behind the speeds, whose rows can be added and taken out, and the machines on the roof.
import { useState } from 'react';
import { parseNumber } from '../../core/units/numbers';
import type { Rates } from '../../core/rates/schema';
import { Choice } from '../ui/Choice';
import { DraftField } from '../ui/DraftField';
import { Ledger, LedgerRow } from '../ui/Ledger';
import { RateRow } from './RateRow';
import { useLive } from './session';

type Welding = Rates['welding'];
type ListName = 'sheets' | 'ambient' | 'surfaces' | 'machines';

export function SpeedTable() {
  const { job } = useLive();
  const { sheets, ambient, surfaces } = job.rates.welding;
  const lists = useLists();
  const [material, setMaterial] = useState<'TPO' | 'PVC'>('TPO');
  return (
    <>
      <Ledger label="Table of speeds">
        {sheets.map((row, k) => (
          <RateRow
            key={`${k} ${row.material} ${row.thickness}`}
            name={named(`${row.material} ${row.thickness} mm`, () => lists.takeOut('sheets', k))}
            label={`${row.material} ${row.thickness} mm`}
            path={['welding', 'sheets', k, 'factor']}
            unit="×"
          />
        ))}
        <LedgerRow
          name={
            <Choice
              label="Material of the new row"
              value={material}
              options={[
                { value: 'TPO', text: 'TPO' },
                { value: 'PVC', text: 'PVC' },
              ]}
              onChoose={setMaterial}
            />
          }
          figure={
            <NewRow
              label="Thickness of the new row"
              placeholder="mm"
              onRow={(thickness) => lists.add('sheets', { material, thickness, factor: 1 })}
            />
          }
          reason="adds a thickness at × 1"
        />
        {ambient.map((row, k) => (
          <RateRow
            key={`${k} ${row.celsius}`}
            name={named(`${row.celsius} °C`, () => lists.takeOut('ambient', k))}
            label={`${row.celsius} °C`}
            path={['welding', 'ambient', k, 'factor']}
            unit="×"
          />
        ))}
        <LedgerRow
          name="Another temperature"
          figure={
            <NewRow
              label="Temperature of the new row"
              placeholder="°C"
              onRow={(celsius) => lists.add('ambient', { celsius, factor: 1 })}
            />
          }
          reason="adds a row at × 1"
        />
        {surfaces.map((row, k) => (
          <RateRow
            key={`${k} ${row.name}`}
            name={named(row.name, () => lists.takeOut('surfaces', k))}
            label={row.name}
            path={['welding', 'surfaces', k, 'factor']}
            unit="×"
          />
        ))}
        <LedgerRow
          wide
          name="Another surface"
          figure={
            <DraftField
              label="Name of the new surface"
              shown=""
              placeholder="its name"
              align="left"
              onCommit={(name) => lists.add('surfaces', { name: name.trim(), factor: 1 })}
            />
          }
        />
      </Ledger>
      <p className="soft">
        Between two rows the table is read in a straight line, beyond its ends as at its ends.
      </p>
    </>
  );
}

export function Machines() {
  const { job, estimate, actions } = useLive();
  const { machines } = job.rates.welding;
  const lists = useLists();
  const atOnce = estimate?.workPlan.supply.atOnce ?? machines.length;
  return (
    <>
      {machines.map((row, k) => (
        <Ledger key={k} label={row.name}>
          <LedgerRow
            wide
            name={named(`Machine ${k + 1}`, () => lists.takeOut('machines', k))}
            figure={
              <DraftField
                label={`Name of machine ${k + 1}`}
                shown={row.name}
                align="left"
                onCommit={(name) =>
                  actions.run({
                    kind: 'setRate',
                    path: ['welding', 'machines', k, 'name'],
                    value: name.trim(),
                  })
                }
              />
            }
          />
          <RateRow
            name="Speed"
            label={`Speed of machine ${k + 1}`}
            path={['welding', 'machines', k, 'factor']}
            unit="×"
          />
          <RateRow
            name="Draws"
            label={`Current of machine ${k + 1}`}
            path={['welding', 'machines', k, 'amps']}
            unit="A"
          />
          <LedgerRow
            name="Welds at its"
            figure={
              <Choice
                label={`Hand of machine ${k + 1}`}
                value={row.handed}
                options={[
                  { value: 'right', text: 'right' },
                  { value: 'left', text: 'left' },
                ]}
                onChoose={(value) =>
                  actions.run({ kind: 'setRate', path: ['welding', 'machines', k, 'handed'], value })
                }
              />
            }
            reason={k < atOnce ? 'in use' : 'nobody to run it'}
          />
        </Ledger>
      ))}
      <p className="row-of-buttons">
        <button
          type="button"
          onClick={() =>
            lists.add('machines', { name: freeName(machines), factor: 1, handed: 'right', amps: 20 })
          }
        >
          Add a machine
        </button>
      </p>
      <p className="soft">
        All run side by side, as far as there are people: whichever is free first takes the next lap.
      </p>
    </>
  );
}

function useLists() {
  const { job, actions } = useLive();
  const { welding } = job.rates;
  const put = (list: ListName, value: readonly unknown[]) =>
    actions.run({ kind: 'setRate', path: ['welding', list], value });
  return {
    add: <L extends ListName>(list: L, row: Welding[L][number]): string | null =>
      put(list, [...welding[list], row]),
    takeOut: (list: ListName, at: number): string | null =>
      put(
        list,
        [...welding[list]].filter((_, k) => k !== at),
      ),
  };
}

function named(name: string, onTakeOut: () => void) {
  return (
    <span className="row-name">
      {name}{' '}
      <button
        type="button"
        className="quiet"
        aria-label={`Take out ${name}`}
        title={`Take out ${name}`}
        onClick={onTakeOut}
      >
        −
      </button>
    </span>
  );
}

interface NewRowProps {
  readonly label: string;
  readonly placeholder: string;
  readonly onRow: (value: number) => string | null;
}

/** A field that adds a row when a number is typed and is empty again. */
function NewRow({ label, placeholder, onRow }: NewRowProps) {
  return (
    <DraftField
      label={label}
      shown=""
      placeholder={placeholder}
      onCommit={(text) => {
        const parsed = parseNumber(text);
        return 'fault' in parsed ? `${parsed.fault} Write digits such as 1.8.` : onRow(parsed.value);
      }}
    />
  );
}

/** The first number that no machine is called by. */
function freeName(machines: Welding['machines']): string {
  let k = machines.length + 1;
  while (machines.some(({ name }) => name === `Machine ${k}`)) k++;
  return `Machine ${k}`;
}
