// In: the value of a job.json of an earlier version. Out: the same job as this version writes it. Promise: each step
// goes from one version to the next and is never changed again; what it does not understand it leaves to the schema.
type Fields = Record<string, unknown>;

/** Step k brings version k + 1 to version k + 2. */
const STEPS: readonly ((job: Fields) => Fields)[] = [breaksGetTimes];

export function migrate(job: Fields & { readonly version: number }): Fields {
  return STEPS.slice(job.version - 1).reduce<Fields>(
    (at, step, k) => ({ ...step(at), version: job.version + k + 1 }),
    job,
  );
}

/** A count of long breaks becomes as many of half an hour, spread over the day from seven on. */
function breaksGetTimes(job: Fields): Fields {
  const rates = fieldsOf(job['rates']);
  const welding = fieldsOf(rates?.['welding']);
  if (!rates || !welding || typeof welding['longBreaks'] !== 'number') return job;
  const { longBreaks: count, ...rest } = welding as { readonly longBreaks: number };
  const hours = fieldsOf(rates['labour'])?.['dayHours'];
  const minutes = 60 * (typeof hours === 'number' ? hours : 8);
  const two = (value: number) => String(value).padStart(2, '0');
  const breaks = Array.from({ length: count }, (_, k) => {
    const at = Math.min(START_MIN + Math.round((minutes * (k + 1)) / (count + 1)), LAST_MIN);
    return { at: `${two(Math.floor(at / 60))}:${two(at % 60)}`, minutes: 30 };
  });
  const confirmed = Array.isArray(job['confirmed']) ? (job['confirmed'] as unknown[]) : [];
  return {
    ...job,
    rates: { ...rates, welding: { ...rest, clock: { start: '07:00', breaks } } },
    confirmed: confirmed.map((path) =>
      path === 'rates.welding.longBreaks' ? 'rates.welding.clock.breaks' : path,
    ),
  };
}

const START_MIN = 7 * 60;
const LAST_MIN = 23 * 60;

function fieldsOf(value: unknown): Fields | null {
  return typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Fields) : null;
}
