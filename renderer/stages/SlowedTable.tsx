// What height, crowding and weather add to each day and to the whole, in crew hours.
import { formatNumber } from '../../core/units/numbers';
import type { WorkPlan } from '../../core/welding/types';
import { Drawer, Ledger } from '../ui/Ledger';
import { RateRow } from './RateRow';

const FACTORS = [
  ['Height', 'height'],
  ['Crowding', 'crowding'],
  ['Weather', 'weather'],
] as const;

export function SlowedTable({ plan }: { readonly plan: WorkPlan }) {
  const { days } = plan;
  const total = (k: number) => days.reduce((sum, day) => sum + (day.slowed[k]?.minutes ?? 0), 0);
  const all = FACTORS.reduce((sum, _, k) => sum + total(k), 0);
  const hours = (minutes: number) => formatNumber(minutes / 60, 1);
  return (
    <Drawer title={`What slows the work: ${all > 0 ? `${hours(all)} crew h` : 'nothing is set'}`}>
      <Ledger label="What slows the work">
        {FACTORS.map(([name, key], k) => (
          <RateRow
            key={key}
            name={name}
            path={['welding', 'productivity', key]}
            unit="×"
            per={`adds ${hours(total(k))} h`}
          />
        ))}
      </Ledger>
      {all > 0 && (
        <table className="slowed">
          <caption className="soft">
            Crew hours that each adds to laying, fastening, welding and probing, on top of those before it
          </caption>
          <thead>
            <tr>
              <th scope="col">Day</th>
              {FACTORS.map(([name]) => (
                <th scope="col" key={name}>
                  {name}
                </th>
              ))}
              <th scope="col">Together</th>
            </tr>
          </thead>
          <tbody>
            {days.map((day) => (
              <tr key={day.number}>
                <th scope="row">{day.number}</th>
                {day.slowed.map((part) => (
                  <td key={part.name}>{hours(part.minutes)}</td>
                ))}
                <td>{hours(day.slowed.reduce((sum, part) => sum + part.minutes, 0))}</td>
              </tr>
            ))}
            <tr className="total">
              <th scope="row">All</th>
              {FACTORS.map(([name], k) => (
                <td key={name}>{hours(total(k))}</td>
              ))}
              <td>{hours(all)}</td>
            </tr>
          </tbody>
        </table>
      )}
    </Drawer>
  );
}
