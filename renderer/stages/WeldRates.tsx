// The figures behind weld times and days, each editable and marked until a person confirms it.
import { formatNumber } from '../../core/units/numbers';
import { Drawer, Ledger, LedgerRow, Section } from '../ui/Ledger';
import { RateRow } from './RateRow';
import { useLive } from './session';

export function WeldRates() {
  const { job, estimate } = useLive();
  const supply = estimate?.workPlan.supply;
  const { sheets, ambient, surfaces, machines } = job.rates.welding;
  return (
    <>
      <Section title="Speeds">
        <Ledger label="Speeds">
          <RateRow name="Machine" path={['speeds', 'machine']} unit="m/min" per="1.5 mm, 20 °C" />
          <RateRow name="Hand, along a lap" path={['speeds', 'handLap']} unit="m/min" />
          <RateRow name="Hand, at details" path={['speeds', 'handDetail']} unit="m/min" />
          <RateRow name="Machine time welding" path={['speeds', 'efficiency']} unit="" most={1} />
          <RateRow name="Hand time welding" path={['welding', 'handEfficiency']} unit="" most={1} />
          <RateRow name="Air planned for" path={['welding', 'conditions', 'celsius']} unit="°C" />
        </Ledger>
        <Drawer title="Table of speeds: times the machine's">
          <Ledger label="Table of speeds">
            {sheets.map((row, k) => (
              <RateRow
                key={`${row.material} ${row.thickness}`}
                name={`${row.material} ${row.thickness} mm`}
                path={['welding', 'sheets', k, 'factor']}
                unit="×"
              />
            ))}
            {ambient.map((row, k) => (
              <RateRow
                key={row.celsius}
                name={`${row.celsius} °C`}
                path={['welding', 'ambient', k, 'factor']}
                unit="×"
              />
            ))}
            {surfaces.map((row, k) => (
              <RateRow key={row.name} name={row.name} path={['welding', 'surfaces', k, 'factor']} unit="×" />
            ))}
            {machines.map((row, k) => (
              <RateRow key={row.name} name={row.name} path={['welding', 'machines', k, 'factor']} unit="×" />
            ))}
          </Ledger>
        </Drawer>
      </Section>
      <Drawer title="Allowances">
        <Ledger label="Allowances">
          <RateRow name="Set-up at each stop" path={['speeds', 'setupPerSeam']} unit="min" />
          <RateRow name="Turning for each run" path={['welding', 'turning']} unit="min" />
          <RateRow name="Walking back" path={['speeds', 'walking']} unit="m/min" />
          <RateRow name="Left to the hand at a stop" path={['welding', 'handAtStop']} unit="length" />
          <RateRow name="Slowing at a T-joint" path={['welding', 'slowAtTJoint']} unit="min" />
          <RateRow name="Treating a T-joint" path={['speeds', 'perTJoint']} unit="min" />
          <RateRow name="Cleaning a nozzle" path={['welding', 'nozzleCleaning']} unit="min" />
          <RateRow name="every" path={['welding', 'nozzleEvery']} unit="m" />
          <RateRow name="Probing" path={['welding', 'probing']} unit="m/min" />
          <RateRow name="A repair" path={['welding', 'perRepair']} unit="min" />
          <RateRow name="every" label="Repair every" path={['welding', 'repairEvery']} unit="m" />
          <RateRow name="Each test strip" path={['speeds', 'perTestStrip']} unit="min" />
          <RateRow name="Heating up" path={['welding', 'warmUp']} unit="min" per="a day and machine" />
          <RateRow name="Cooling down" path={['welding', 'cooling']} unit="min" per="a day and machine" />
          <RateRow name="Closing for the night" path={['welding', 'nightSeal']} unit="m/min" />
          <RateRow name="Cut back next morning" path={['welding', 'nightCutBack']} unit="length" />
          <RateRow name="Least lap for a machine" path={['welding', 'leastMachineLap']} unit="length" />
        </Ledger>
      </Drawer>
      <Drawer title="Supply and lead">
        <Ledger label="Supply">
          <RateRow name="Voltage" path={['welding', 'supply', 'volts']} unit="V" />
          <RateRow name="Lead, one way" path={['welding', 'supply', 'leadLength']} unit="m" />
          <RateRow name="Section" path={['welding', 'supply', 'leadSection']} unit="mm²" />
          <RateRow name="Most lost along it" path={['welding', 'supply', 'mostDropPercent']} unit="%" />
          {machines.map((row, k) => (
            <RateRow
              key={row.name}
              name={`${row.name} draws`}
              path={['welding', 'machines', k, 'amps']}
              unit="A"
            />
          ))}
          {supply && (
            <LedgerRow
              name="Lost along the lead"
              figure={`${formatNumber(supply.percent, 1)} %`}
              reason={`${formatNumber(supply.drop, 1)} V, leaves ${formatNumber(100 * supply.powerShare)} % of the heat`}
            />
          )}
          {supply && (
            <LedgerRow
              name="Generator, at least"
              figure={`${formatNumber(supply.generator, 1)} kW`}
              reason={`${formatNumber(supply.running, 1)} kW running, × 1.25`}
            />
          )}
        </Ledger>
        <p className="soft">
          A planning check only: an electrician decides. Residual-current protection, leads out of water, and
          no other tool on a generator that carries a welding machine.
        </p>
      </Drawer>
      <Drawer title="Crew and what slows it">
        <Ledger label="Crew">
          <RateRow name="Crews" path={['welding', 'crews']} unit="" whole />
          <RateRow name="People in a crew" path={['labour', 'crew']} unit="" whole />
          <RateRow name="Hours a day" path={['labour', 'dayHours']} unit="h" most={24} />
          <RateRow name="Share of them on hand" path={['welding', 'availability']} unit="" most={1} />
          <RateRow name="Height" path={['welding', 'productivity', 'height']} unit="×" per="on all hours" />
          <RateRow
            name="Crowding"
            path={['welding', 'productivity', 'crowding']}
            unit="×"
            per="on all hours"
          />
          <RateRow name="Weather" path={['welding', 'productivity', 'weather']} unit="×" per="on all hours" />
        </Ledger>
      </Drawer>
    </>
  );
}
