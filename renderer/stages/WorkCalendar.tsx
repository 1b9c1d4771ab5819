// What the days are planned by: the first day, days lost, access, the order of laying, wind and forecast.
import type { PagePoint } from '../../core/geometry/points';
import type { DayForecast, Job } from '../../core/job/schema';
import { parseNumber } from '../../core/units/numbers';
import { minutesOf, timeOf } from '../../core/units/times';
import type { Picked } from '../document/picked';
import { Choice } from '../ui/Choice';
import { DraftField } from '../ui/DraftField';
import { Drawer, Ledger, LedgerRow } from '../ui/Ledger';
import { useStore } from '../ui/useStore';
import { readTime } from './ClockRows';
import { useLive, useSession } from './session';

/** Sides of the plan, as degrees counter-clockwise from the right. */
const SIDES = [
  ['0', 'the right of the plan'],
  ['45', 'the upper right'],
  ['90', 'the top'],
  ['135', 'the upper left'],
  ['180', 'the left'],
  ['225', 'the lower left'],
  ['270', 'the bottom'],
  ['315', 'the lower right'],
] as const;

function windOptions(none: string): { readonly value: string; readonly text: string }[] {
  return [{ value: 'none', text: none }, ...SIDES.map(([value, text]) => ({ value, text: `from ${text}` }))];
}

export function WorkCalendar() {
  const { job, actions } = useLive();
  const { selection } = useStore(useSession().document);
  const { work } = job;
  const set = (fields: Partial<Omit<Job['work'], 'moved'>>) => actions.run({ kind: 'setWork', fields });
  const picked = selection.map((one) => accessAt(job, one)).find((place) => place !== null);
  return (
    <>
      <Ledger label="Calendar">
        <LedgerRow
          name="First day"
          figure={
            <DraftField
              label="First day"
              shown={work.start ?? ''}
              placeholder="year-month-day"
              onCommit={(text) => set({ start: text.trim() === '' ? null : text.trim() })}
            />
          }
          reason={work.start === null ? 'days are numbered until it is given' : 'weekends off'}
        />
        <LedgerRow
          name="Days lost"
          figure={
            <DraftField
              label="Days lost"
              shown={work.lost.join(' ')}
              placeholder="none"
              onCommit={(text) => set({ lost: text.split(/[\s,;]+/).filter(Boolean) })}
            />
          }
          reason="to weather or others, dates with spaces between"
        />
        <LedgerRow
          wide
          name="Access"
          figure={
            picked ? (
              <button type="button" onClick={() => set({ access: { roof: picked.roof, at: picked.at } })}>
                At the {picked.what} picked on the plan
              </button>
            ) : work.access ? (
              <button type="button" onClick={() => set({ access: null })}>
                Set. Take it back
              </button>
            ) : (
              <span className="soft">Pick the corner, edge or fitting where people and rolls come up</span>
            )
          }
        />
        <LedgerRow
          wide
          name="Wind"
          figure={
            <Choice
              label="Wind"
              value={work.wind === null ? 'none' : nearestSide(work.wind)}
              options={windOptions('not known')}
              onChoose={(side) => set({ wind: side === 'none' ? null : Number(side) })}
            />
          }
        />
        <LedgerRow
          wide
          name="Order of laying"
          figure={
            <Choice
              label="Order of laying"
              value={work.order ?? 'open'}
              options={[
                { value: 'open', text: 'Low to high, not yet chosen' },
                { value: 'low to high', text: 'Low to high, laps shed water' },
                { value: 'high to low', text: 'Far end first, each course tucked under' },
                { value: 'windward first', text: 'Windward edge first' },
              ]}
              onChoose={(value) => set({ order: value === 'open' ? null : value })}
            />
          }
        />
      </Ledger>
      <Forecasts set={set} />
    </>
  );
}

function nearestSide(degrees: number): string {
  return String((Math.round(degrees / 45) % 8) * 45);
}

function Forecasts({ set }: { readonly set: (fields: Pick<Job['work'], 'forecast'>) => string | null }) {
  const { job } = useLive();
  const { forecast } = job.work;
  const last = Math.max(0, ...forecast.map(({ day }) => day));
  const change = (day: number, fields: Partial<DayForecast>) =>
    set({ forecast: forecast.map((one) => (one.day === day ? { ...one, ...fields } : one)) });
  return (
    <Drawer title={forecast.length === 0 ? 'Forecast' : `Forecast, ${forecast.length} day(s)`}>
      {forecast.map((one) => (
        <div className="forecast" key={one.day}>
          <Open
            name="Day"
            value={one.day}
            onValue={(day) =>
              day === null ? 'A whole number from 1 is needed here.' : change(one.day, { day })
            }
          />
          <Choice
            label={`Wind on day ${one.day}`}
            labelled="visible"
            value={one.from === null ? 'none' : nearestSide(one.from)}
            options={windOptions('as the site’s')}
            onChoose={(side) => change(one.day, { from: side === 'none' ? null : Number(side) })}
          />
          <Open name="m/s" value={one.speed} onValue={(speed) => change(one.day, { speed })} />
          <Open name="°C" value={one.celsius} onValue={(celsius) => change(one.day, { celsius })} />
          <Open
            name="humidity %"
            value={one.humidity}
            onValue={(humidity) => change(one.day, { humidity })}
          />
          <button
            type="button"
            className="quiet"
            aria-label={`Take out the forecast of day ${one.day}`}
            onClick={() => set({ forecast: forecast.filter(({ day }) => day !== one.day) })}
          >
            Take out
          </button>
          <Hours day={one} onHours={(hours) => change(one.day, { hours })} />
        </div>
      ))}
      <button
        type="button"
        onClick={() =>
          set({
            forecast: [
              ...forecast,
              { day: last + 1, from: null, speed: null, celsius: null, humidity: null, hours: [] },
            ],
          })
        }
      >
        Add the forecast of day {last + 1}
      </button>
    </Drawer>
  );
}

type HourForecast = DayForecast['hours'][number];

interface HoursProps {
  readonly day: DayForecast;
  readonly onHours: (hours: readonly HourForecast[]) => string | null;
}

/** The same by the hour: from each time on until the next. Hours that stop the work are taken off the day. */
function Hours({ day, onHours }: HoursProps) {
  const { hours } = day;
  const change = (k: number, fields: Partial<HourForecast>) =>
    onHours(hours.map((hour, at) => (at === k ? { ...hour, ...fields } : hour)));
  return (
    <div className="forecast-hours">
      {hours.map((hour, k) => (
        <div className="forecast-hour" key={`${k} ${hour.at}`}>
          <DraftField
            label="from"
            labelled="visible"
            shown={hour.at}
            onCommit={(text) => {
              const at = readTime(text);
              return at === null ? 'Write a time such as 07:30.' : change(k, { at });
            }}
          />
          <Open name="m/s" value={hour.speed} onValue={(speed) => change(k, { speed })} />
          <Open name="°C" value={hour.celsius} onValue={(celsius) => change(k, { celsius })} />
          <Open name="damp %" value={hour.humidity} onValue={(humidity) => change(k, { humidity })} />
          <button
            type="button"
            className="quiet"
            aria-label={`Take out the hours from ${hour.at} of day ${day.day}`}
            onClick={() => onHours(hours.filter((_, at) => at !== k))}
          >
            −
          </button>
        </div>
      ))}
      <button
        type="button"
        className="quiet"
        onClick={() =>
          onHours([...hours, { at: nextHour(hours), speed: null, celsius: null, humidity: null }])
        }
      >
        By the hour on day {day.day}: add a time
      </button>
    </div>
  );
}

/** Two hours after the last that is given. */
function nextHour(hours: readonly HourForecast[]): string {
  const last = hours.at(-1)?.at;
  return last === undefined ? '06:00' : timeOf(Math.min(minutesOf(last) + 120, 23 * 60));
}

interface OpenProps {
  readonly name: string;
  readonly value: number | null;
  readonly onValue: (value: number | null) => string | null;
}

/** A number that may be left open. */
function Open({ name, value, onValue }: OpenProps) {
  return (
    <DraftField
      label={name}
      labelled="visible"
      shown={value === null ? '' : String(value)}
      onCommit={(text) => {
        if (text.trim() === '') return onValue(null);
        const parsed = parseNumber(text);
        return 'fault' in parsed ? `${parsed.fault} Write digits such as 7.5.` : onValue(parsed.value);
      }}
    />
  );
}

/** A corner bears the id of the edge that starts there. */
function accessAt(
  job: Job,
  { kind, id, roof }: Picked,
): { readonly roof: string; readonly at: PagePoint; readonly what: string } | null {
  const edge = kind === 'edge' || kind === 'corner' ? job.edges[id] : undefined;
  const at = edge?.at ?? (kind === 'fitting' ? job.fittings[id]?.at : undefined);
  return at && roof !== null ? { roof, at, what: kind } : null;
}
