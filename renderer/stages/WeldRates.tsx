// The figures behind weld times and days, each editable and marked until a person confirms it.
import { formatNumber } from '../../core/units/numbers';
import { Choice } from '../ui/Choice';
import { Drawer, Ledger, LedgerRow, Section } from '../ui/Ledger';
import { ClockRows } from './ClockRows';
import { Machines, SpeedTable } from './MachineTables';
import { OpenRateRow, RateRow } from './RateRow';
import { useLive } from './session';

export function WeldRates() {
  const { job, estimate, actions } = useLive();
  const supply = estimate?.workPlan.supply;
  const { machines, surfaces, conditions } = job.rates.welding;
  const dew = estimate?.workPlan.dewPoint ?? null;
  return (
    <>
      <Section title="Speeds">
        <Ledger label="Speeds">
          <RateRow name="Machine" path={['speeds', 'machine']} unit="m/min" per={'1.5 mm, 20\u00a0°C'} />
          <RateRow name="Hand, along a lap" path={['speeds', 'handLap']} unit="m/min" />
          <RateRow name="Hand, at details" path={['speeds', 'handDetail']} unit="m/min" />
          <RateRow name="Machine time welding" path={['speeds', 'efficiency']} unit="" most={1} />
          <RateRow name="Hand time welding" path={['welding', 'handEfficiency']} unit="" most={1} />
          <RateRow name="Air planned for" path={['welding', 'conditions', 'celsius']} unit="°C" least={-40} />
          <LedgerRow
            name="Surface"
            wide
            figure={
              <Choice
                label="Surface"
                value={conditions.surface}
                options={surfaces.map(({ name }) => ({ value: name, text: name }))}
                onChoose={(value) =>
                  actions.run({ kind: 'setRate', path: ['welding', 'conditions', 'surface'], value })
                }
              />
            }
          />
        </Ledger>
        <Drawer title="Table of speeds: times the machine's">
          <SpeedTable />
        </Drawer>
        <Drawer title={`Machines, ${machines.length}`}>
          <Machines />
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
          <RateRow name="Sheets lie before welding" path={['welding', 'relaxing']} unit="min" />
          <RateRow name="Cut back next morning" path={['welding', 'nightCutBack']} unit="length" />
          <RateRow name="Least lap for a machine" path={['welding', 'leastMachineLap']} unit="length" />
        </Ledger>
      </Drawer>
      <Drawer title="Wind and bonding">
        <Ledger label="Wind and bonding">
          <RateRow name="Nothing unrolled from" path={['welding', 'wind', 'unroll']} unit="m/s" most={40} />
          <RateRow name="All work stops from" path={['welding', 'wind', 'stop']} unit="m/s" most={40} />
          <OpenRateRow
            name="Humidity planned for"
            path={['welding', 'conditions', 'humidity']}
            unit="%"
            reason={dew === null ? 'for the dew point' : `dew point ${formatNumber(dew, 1)} °C`}
          />
          <RateRow
            name="Bonding, least air"
            path={['welding', 'adhering', 'leastCelsius']}
            unit="°C"
            least={-20}
          />
          <RateRow name="Above the dew point" path={['welding', 'adhering', 'aboveDewPoint']} unit="°C" />
          <RateRow name="Coats" path={['welding', 'adhering', 'coats']} unit="" whole most={3} />
          <RateRow name="Each coat" path={['welding', 'adhering', 'minutesPerM2']} unit="min/m²" />
          <RateRow name="Each coat dries" path={['welding', 'adhering', 'drying']} unit="min" />
        </Ledger>
        <p className="soft">
          {job.system.attachment === 'adhered'
            ? 'This roof is bonded: the days count the coats and their drying.'
            : 'Bonding counts only where sheets are adhered.'}{' '}
          The site’s own limits for wind come first.
        </p>
      </Drawer>
      <Drawer title="Supply and lead">
        <Ledger label="Supply">
          <RateRow name="Voltage" path={['welding', 'supply', 'volts']} unit="V" />
          <RateRow name="Lead, one way" path={['welding', 'supply', 'leadLength']} unit="m" />
          <RateRow name="Section" path={['welding', 'supply', 'leadSection']} unit="mm²" />
          <RateRow name="Most lost along it" path={['welding', 'supply', 'mostDropPercent']} unit="%" />
          <LedgerRow
            name="Leads"
            figure={
              <Choice
                label="Leads"
                value={job.rates.welding.supply.leads}
                options={[
                  { value: 'one each', text: 'one each' },
                  { value: 'one for all', text: 'one for all' },
                ]}
                onChoose={(value) =>
                  actions.run({ kind: 'setRate', path: ['welding', 'supply', 'leads'], value })
                }
              />
            }
            reason={supply ? `${supply.atOnce} machine(s) at once` : ''}
          />
          <OpenRateRow
            name="Supply gives"
            path={['welding', 'supply', 'kilowatts']}
            unit="kW"
            reason="left open until it is known"
          />
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
      <Drawer title="Crew and its day">
        <Ledger label="Crew">
          <RateRow name="Crews" path={['welding', 'crews']} unit="" whole />
          <RateRow name="People in a crew" path={['labour', 'crew']} unit="" whole />
          <RateRow name="Hours a day" path={['labour', 'dayHours']} unit="h" most={24} />
          <RateRow name="Share of them on hand" path={['welding', 'availability']} unit="" most={1} />
          <ClockRows />
        </Ledger>
      </Drawer>
    </>
  );
}
